/**
 * What a few heights show of a board through the surface behind them: hollow under every string between the lines, radius at every
 * crossline, wear at every reading. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Gauge } from "../board/settings.ts";
import { stringYMm } from "../board/stringPaths.ts";
import { compensateTip } from "../compensation/tip.ts";
import type { Point, SurfaceSummary } from "../examination.ts";
import type { Pattern } from "../readings/patternOfReadings.ts";
import type { Readings } from "../readings/readings.ts";
import { heightMm, radiusAtMm, type SurfaceShape, slopes } from "../surface/idealSurface.ts";
import { shapeOfBoard } from "../surface/shapeOfBoard.ts";
import { heightVariance, varianceOf } from "../surface/surfaceUncertainty.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";
import { coverageFactor } from "../units.ts";
import type { FewFitted } from "./fewReadings.ts";
import { gaugeUOfRadiusMm } from "./gaugeOnRadius.ts";
import { hollowRange, lineLooked } from "./linesLooked.ts";
import { deepestFirst, type Looked, type LookedHollow, type LookedRadius, type LookedWear } from "./looked.ts";
import { radiusRange } from "./setShape.ts";

export type ThroughSurface = {
  readonly looked: Looked;
  readonly surface: UnwornSurface;
  readonly shape: SurfaceSummary;
};

/** A string counts as looked at this far beyond the outermost line, as a share of the way between the outer strings. */
const besideShare = 0.1;

export function lookThroughSurface(
  { surface, compensated, worn }: Extract<FewFitted, { outcome: "fitted" }>,
  readings: Readings,
  { crosslinesMm }: Pattern,
  set: SurfaceShape,
  instrument: Instrument,
  gauge: Gauge,
  hollowUMm: number,
): ThroughSurface {
  const lines = instrument.strings.map((string) => lineLooked(instrument, string));
  const ranges = lines.map((line) => hollowRange(instrument, set, line));
  const targets = ranges.map(([from, to]) => (from + to) / 2);
  const whole = shapeOfBoard(surface, compensated, instrument, gauge, targets, hollowUMm);
  const shares = compensated.readings.map(({ givenXMm, givenYMm }) => shareAcross(instrument, givenXMm, givenYMm));
  const isLookedAt = (index: number): boolean => {
    const share = index / (instrument.strings.length - 1);
    return share >= Math.min(...shares) - besideShare && share <= Math.max(...shares) + besideShare;
  };
  const shape = { ...whole, hollows: whole.hollows.filter((_, index) => isLookedAt(index)) };
  const hollows = whole.hollows.map(
    ({ hollowMm, deepestAtMm, measuredMm }, index): LookedHollow => ({
      ...lines[index]!,
      hollowMm,
      deepestAtMm,
      measuredMm,
      withinMm: ranges[index]!,
    }),
  );
  const slopesAt = (xMm: number, yMm: number) => slopes(surface.plan, surface.shape, xMm, yMm);
  const points = compensateTip(readings, gauge.tipRadiusMm, slopesAt).readings.map((reading): Point => {
    const { row, givenXMm, givenYMm, xMm, yMm } = reading;
    const unwornMm = heightMm(surface.plan, surface.shape, xMm, yMm);
    const wearMm = unwornMm - reading.heightMm;
    return { row, givenXMm, givenYMm, xMm, yMm, heightMm: reading.heightMm, unwornMm, wearMm, cutMm: null };
  });
  const ofShape = readings.readings.flatMap(({ mark }, i) => (mark === "lowest" ? [] : [i]));
  const wornAtPoint = points.map((_, i) => worn[ofShape.indexOf(i)] ?? 1);
  return {
    surface,
    shape,
    looked: {
      hollows: hollows.filter((_, index) => isLookedAt(index)),
      radii: crosslinesMm.map((xMm) => radiusAtCrossline(surface, xMm, set, instrument, gauge)),
      sides: [],
      wear: points.map((point, i) => wornAt(point, wornAtPoint[i]!, surface)).sort(deepestFirst),
      points,
      assumed: shape.assumed,
    },
  };
}

/** 0 on the lowest string's path, 1 on the highest's. */
function shareAcross(instrument: Instrument, xMm: number, yMm: number): number {
  const lowestMm = stringYMm(instrument, 0, xMm);
  return (yMm - lowestMm) / (stringYMm(instrument, instrument.strings.length - 1, xMm) - lowestMm);
}

function radiusAtCrossline(
  surface: UnwornSurface,
  xMm: number,
  set: SurfaceShape,
  instrument: Instrument,
  gauge: Gauge,
): LookedRadius {
  const radiusOf = (shape: SurfaceShape): number => radiusAtMm(shape, xMm / surface.plan.lengthMm);
  const value = radiusOf(surface.shape);
  const readOverMm = stringYMm(instrument, instrument.strings.length - 1, xMm) - stringYMm(instrument, 0, xMm);
  const u = Math.hypot(
    coverageFactor * Math.sqrt(varianceOf(surface, radiusOf)),
    gaugeUOfRadiusMm(value, readOverMm, gauge),
  );
  return { xMm, radiusMm: { value, u }, withinMm: radiusRange(instrument, set, xMm) };
}

function wornAt({ xMm, yMm, wearMm }: Point, worn: number, surface: UnwornSurface): LookedWear {
  const u = coverageFactor * Math.sqrt(heightVariance(surface, xMm, yMm) + surface.noiseMm ** 2);
  return { xMm, yMm, wearMm: { value: wearMm, u }, stands: worn > 0.5 && Math.abs(wearMm) > u };
}
