/**
 * What a few heights show line by line and crossline by crossline, where they carry no surface: three along a line its hollow, three
 * across at a crossline its radius, each of one set-up. It does not matter then whether set-ups hang together. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import { halfWidthMm } from "../board/outline.ts";
import type { Gauge } from "../board/settings.ts";
import { compensateTip } from "../compensation/tip.ts";
import type { Reading, Readings } from "../readings/readings.ts";
import { type SurfaceShape, slopes, surfacePlan } from "../surface/idealSurface.ts";
import type { Quantity } from "../units.ts";
import { arcAcross } from "./arcAcross.ts";
import { gaugeUOfRadiusMm } from "./gaugeOnRadius.ts";
import { heightsAlongLine } from "./heightsAlongLine.ts";
import { groupedBy, hollowRange, inOrderOfStrings, lineLooked, reachesOver } from "./linesLooked.ts";
import { deepestFirst, type Looked, type LookedRadius, type LookedWear } from "./looked.ts";
import { radiusRange } from "./setShape.ts";

const fewestOnLine = 3;
const fewestAcross = 3;
/** Of a scan along a line so many readings, evenly chosen, tell its hollow as well as all of them. */
const mostOnLine = 40;
/** Readings across tell a radius if they reach over this share of the board's width. */
const leastAcrossShare = 0.2;
/** Scatter of a careful bench, mm: what readings at one crossline are taken to have (from memory). */
const benchScatterMm = 0.015;

export function lookOneByOne(
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
    .filter((line) => new Set(line.map(({ xMm }) => xMm)).size >= fewestOnLine && reachesOver(line, instrument))
    .map((all) => {
      const line = evenlyChosen(all);
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
    .filter((across) => reachesAcross(across, instrument))
    .flatMap((across): LookedRadius[] => {
      const { xMm } = across[0]!;
      const ys = across.map(({ yMm }) => yMm);
      const arc = arcAcross(
        across.map(({ yMm, gaugeMm }) => ({ yMm, heightMm: gaugeMm })),
        scatterMm,
      );
      if (arc.outcome === "no arc") return [];
      const value = arc.radiusMm.value - gauge.tipRadiusMm;
      const u = Math.hypot(arc.radiusMm.u, gaugeUOfRadiusMm(value, spanOf(ys), gauge));
      return [{ xMm, radiusMm: { value, u }, withinMm: radiusRange(instrument, set, xMm) }];
    });
}

function reachesAcross(across: readonly Reading[], instrument: Instrument): boolean {
  const ys = across.map(({ yMm }) => yMm);
  const widthMm = 2 * halfWidthMm(instrument, across[0]!.xMm);
  return new Set(ys).size >= fewestAcross && spanOf(ys) >= leastAcrossShare * widthMm;
}

function evenlyChosen<One extends { readonly xMm: number }>(line: readonly One[]): readonly One[] {
  if (line.length <= mostOnLine) return line;
  const along = [...line].sort((a, b) => a.xMm - b.xMm);
  const last = along.length - 1;
  return Array.from({ length: mostOnLine }, (_, i) => along[Math.round((i * last) / (mostOnLine - 1))]!);
}

function spanOf(numbers: readonly number[]): number {
  const least = numbers.reduce((one, other) => Math.min(one, other), Number.POSITIVE_INFINITY);
  return numbers.reduce((one, other) => Math.max(one, other), Number.NEGATIVE_INFINITY) - least;
}
