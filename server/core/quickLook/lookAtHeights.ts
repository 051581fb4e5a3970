/**
 * Heights too few for a survey -> what they show of a board.
 *
 * Three lines and three crosslines of one set-up carry a surface (fewReadings.ts): hollow under every string between the lines, radius
 * at every crossline. Fewer carry what they lie on: three readings along a line its hollow, three at a crossline its radius,
 * each by itself, so that it does not matter whether set-ups hang together. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Gauge } from "../board/settings.ts";
import { stringYMm } from "../board/stringPaths.ts";
import type { Corrected } from "../compensation/correctedReadings.ts";
import { compensateTip } from "../compensation/tip.ts";
import type { Point, SurfaceSummary } from "../examination.ts";
import type { Pattern } from "../readings/patternOfReadings.ts";
import type { Reading, Readings } from "../readings/readings.ts";
import { heightMm, radiusAtMm, type SurfaceShape, slopes, surfacePlan } from "../surface/idealSurface.ts";
import { shapeOfBoard } from "../surface/shapeOfBoard.ts";
import { heightVariance, varianceOf } from "../surface/surfaceUncertainty.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";
import { coverageFactor, type Quantity } from "../units.ts";
import { arcAcross } from "./arcAcross.ts";
import { type FewFitted, fitFewReadings } from "./fewReadings.ts";
import { heightsAlongLine } from "./heightsAlongLine.ts";
import { groupedBy, hollowRange, inOrderOfStrings, lineLooked } from "./linesLooked.ts";
import type { Looked, LookedHollow, LookedRadius, LookedWear } from "./looked.ts";
import { radiusRange, setShape } from "./setShape.ts";

export type LookedAtHeights = {
  readonly looked: Looked;
  /** The surface behind them; null where they carry none. */
  readonly surface: UnwornSurface | null;
  readonly shape: SurfaceSummary | null;
};

const fewest = { readings: 9, lines: 3, crosslines: 3, onLine: 3, across: 3 } as const;
/** The first and the last reading lie at most this share of the length from the board's ends. */
const farthestEnd = 0.2;
/** More are a scan along a few lines: each is then looked at by itself. */
const mostForSurface = 120;
/** A string counts as looked at this far beyond the outermost line, as a share of the way between the outer strings. */
const besideShare = 0.1;
/** Scatter of a careful bench, mm: what readings at one crossline are taken to have (from memory). */
const benchScatterMm = 0.015;

export function lookAtHeights(
  { readings, hollowUMm }: Corrected,
  pattern: Pattern,
  instrument: Instrument,
  gauge: Gauge,
): LookedAtHeights {
  const set = setShape(instrument);
  const fitted = carriesSurface(readings, pattern, instrument) ? fitFewReadings(readings, instrument, gauge) : null;
  if (fitted?.outcome === "fitted") return throughSurface(fitted, pattern, set, instrument, gauge, hollowUMm);
  return { looked: oneByOne(readings, set, instrument, gauge, hollowUMm), surface: null, shape: null };
}

function carriesSurface({ readings, setups }: Readings, { lines }: Pattern, instrument: Instrument): boolean {
  const crosslines = new Set(readings.map(({ xMm }) => Math.round(xMm))).size;
  return (
    setups.length === 1 &&
    readings.length >= fewest.readings &&
    readings.length <= mostForSurface &&
    lines >= fewest.lines &&
    crosslines >= fewest.crosslines &&
    reachesOver(readings, instrument)
  );
}

function reachesOver(readings: readonly Reading[], { boardLengthMm }: Instrument): boolean {
  const xs = readings.map(({ xMm }) => xMm);
  const lengthMm = boardLengthMm.value;
  return Math.min(...xs) <= farthestEnd * lengthMm && Math.max(...xs) >= (1 - farthestEnd) * lengthMm;
}

function throughSurface(
  { surface, compensated, worn }: Extract<FewFitted, { outcome: "fitted" }>,
  { crosslinesMm }: Pattern,
  set: SurfaceShape,
  instrument: Instrument,
  gauge: Gauge,
  hollowUMm: number,
): LookedAtHeights {
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
  const points = compensated.readings.map((reading): Point => {
    const { row, givenXMm, givenYMm, xMm, yMm } = reading;
    const unwornMm = heightMm(surface.plan, surface.shape, xMm, yMm);
    const wearMm = unwornMm - reading.heightMm;
    return { row, givenXMm, givenYMm, xMm, yMm, heightMm: reading.heightMm, unwornMm, wearMm, cutMm: null };
  });
  return {
    surface,
    shape,
    looked: {
      hollows: hollows.filter((_, index) => isLookedAt(index)),
      radii: crosslinesMm.map((xMm) => radiusAtCrossline(surface, xMm, set, instrument, gauge)),
      sides: [],
      wear: points.map((point, i) => wornAt(point, worn[i]!, surface)).sort(deepestFirst),
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

/** The gauge's limit a, once, in the rise of an arc over the width that was read: s = w²/8R, dR = 8R²/w² ds; expanded. */
function gaugeUOfRadiusMm(radiusMm: number, readOverMm: number, { errorLimitMm }: Gauge): number {
  return ((coverageFactor * 8 * radiusMm ** 2) / readOverMm ** 2) * (errorLimitMm / Math.sqrt(3));
}

function wornAt({ xMm, yMm, wearMm }: Point, worn: number, surface: UnwornSurface): LookedWear {
  const u = coverageFactor * Math.sqrt(heightVariance(surface, xMm, yMm) + surface.noiseMm ** 2);
  return { xMm, yMm, wearMm: { value: wearMm, u }, stands: worn > 0.5 && Math.abs(wearMm) > u };
}

function deepestFirst(a: LookedWear, b: LookedWear): number {
  return b.wearMm.value - b.wearMm.u - (a.wearMm.value - a.wearMm.u);
}

/** Every line and every crossline that holds enough readings of one set-up. */
function oneByOne(
  readings: Readings,
  set: SurfaceShape,
  instrument: Instrument,
  gauge: Gauge,
  hollowUMm: number,
): Looked {
  const plan = surfacePlan(instrument);
  const touched = compensateTip(readings, gauge.tipRadiusMm, (xMm, yMm) => slopes(plan, set, xMm, yMm)).readings;
  const asRead = readings.readings.map((reading, i) => ({ ...reading, touchedMm: touched[i]!.heightMm }));
  const onLines = [...groupedBy(asRead, ({ line, yMm, setup }) => `${setup} ${line ?? yMm.toFixed(1)}`).values()]
    .filter((line) => new Set(line.map(({ xMm }) => xMm)).size >= fewest.onLine && reachesOver(line, instrument))
    .map((line) => {
      const looked = lineLooked(instrument, line[0]!.line ?? line[0]!.yMm);
      const shown = heightsAlongLine(
        line.map(({ xMm, touchedMm }) => ({ xMm, heightMm: touchedMm })),
        { lengthMm: plan.lengthMm, deepest: instrument.hollowDeepest.value },
        {
          floorMm: gauge.resolutionMm / Math.sqrt(12),
          hollowUMm: Math.hypot(hollowUMm, gauge.errorLimitMm / Math.sqrt(3)),
        },
      );
      return { line, looked, shown };
    });
  return {
    hollows: inOrderOfStrings(
      onLines.map(({ looked, shown }) => ({
        ...looked,
        hollowMm: shown.hollowMm,
        deepestAtMm: shown.deepestAtMm,
        measuredMm: null,
        withinMm: hollowRange(instrument, set, looked),
      })),
    ),
    radii: radiiAcross(readings, set, instrument, gauge),
    sides: [],
    wear: onLines
      .flatMap(({ line, shown }) =>
        line.map(({ xMm, yMm }, i): LookedWear => {
          const wearMm: Quantity = shown.wearMm[i]!;
          return { xMm, yMm, wearMm, stands: Math.abs(wearMm.value) > wearMm.u };
        }),
      )
      .sort(deepestFirst),
    points: [],
    assumed: onLines.length > 0 ? ["each line follows one smooth hollow, deepest about where it is set to be"] : [],
  };
}

/** A ball that rides on an arc moves its centre, and so its reading, on an arc that is larger by its own radius. */
function radiiAcross(
  { readings }: Readings,
  set: SurfaceShape,
  instrument: Instrument,
  gauge: Gauge,
): readonly LookedRadius[] {
  const scatterMm = Math.hypot(benchScatterMm, gauge.resolutionMm / Math.sqrt(12));
  return [...groupedBy(readings, ({ setup, xMm }) => `${setup} ${xMm}`).values()]
    .filter((across) => new Set(across.map(({ yMm }) => yMm)).size >= fewest.across)
    .flatMap((across): LookedRadius[] => {
      const { xMm } = across[0]!;
      const ys = across.map(({ yMm }) => yMm);
      const arc = arcAcross(
        across.map(({ yMm, gaugeMm }) => ({ yMm, heightMm: gaugeMm })),
        scatterMm,
      );
      if (arc.outcome === "no arc") return [];
      const value = arc.radiusMm.value - gauge.tipRadiusMm;
      const u = Math.hypot(arc.radiusMm.u, gaugeUOfRadiusMm(value, Math.max(...ys) - Math.min(...ys), gauge));
      return [{ xMm, radiusMm: { value, u }, withinMm: radiusRange(instrument, set, xMm) }];
    });
}
