/**
 * Thickness before and after planing, at every place where the calliper was set.
 *
 * Edges: before less the cut of the unworn surface carried there. Over the hollowed underside: before less the cut of the
 * present surface. Standard uncertainty after: the calliper's limit of error as a rectangle (JCGM 100:2008, 4.3.7), never averaged
 * down by repeats, and the cut's. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Gauge } from "../board/settings.ts";
import type { Side, Thickness, ThicknessPlace } from "../examination.ts";
import type { ThicknessReading } from "../readings/readings.ts";
import { coverageFactor, type Quantity } from "../units.ts";

/** Limit of error of a micrometer on an edge, held by hand, ±mm. From memory. */
const micrometerLimitMm = 0.01;

/** Expanded uncertainty of a thickness as the calliper reads it, mm. */
export function calliperUMm({ calliperErrorMm }: Gauge): number {
  return coverageFactor * (calliperErrorMm / Math.sqrt(3));
}

/** Expanded uncertainty that a thickness would have, had it been measured with a micrometer, mm. */
export function withMicrometer(uMm: number, gauge: Gauge): number {
  const finer = { ...gauge, calliperErrorMm: Math.min(gauge.calliperErrorMm, micrometerLimitMm) };
  return Math.hypot(calliperUMm(finer), cutUMm(uMm, gauge));
}

/** The part of a thickness's expanded uncertainty that is the cut's, mm. */
export function cutUMm(uMm: number, gauge: Gauge): number {
  return Math.sqrt(Math.max(0, uMm ** 2 - calliperUMm(gauge) ** 2));
}

function limitAtMm(instrument: Instrument, side: Side): number {
  return side === "centre" ? instrument.centreLimitMm.value : instrument.edgeLimitMm.value;
}

/** Expanded uncertainty of a thickness after planing, mm, from that of the cut. */
export function thicknessAfterUMm(cutUMm: number, gauge: Gauge): number {
  return Math.hypot(calliperUMm(gauge), cutUMm);
}

/** `cutMm` at each reading, in their order; null where there is no plan. Null where no edge was measured. */
export function thicknessRemaining(
  readings: readonly ThicknessReading[],
  cutsMm: readonly number[] | null,
  cutUMm: number,
  instrument: Instrument,
  gauge: Gauge,
): Thickness | null {
  const u = cutsMm ? thicknessAfterUMm(cutUMm, gauge) : calliperUMm(gauge);
  const places = readings.map(
    (reading, i): ThicknessPlace => ({
      xMm: reading.xMm,
      side: reading.side,
      beforeMm: reading.thicknessMm,
      afterMm: cutsMm ? reading.thicknessMm - cutsMm[i] : null,
      u,
      limitMm: limitAtMm(instrument, reading.side),
    }),
  );
  const edges = places.filter((place) => place.side !== "centre");
  if (edges.length === 0) return null;
  const thinnest = edges.reduce((least, place) => (place.beforeMm < least.beforeMm ? place : least));
  const edgeAfterMm = leastLeft(edges, u);
  const centres = places.filter((place) => place.side === "centre");
  const limitMm = instrument.edgeLimitMm.value;
  return {
    before: { xMm: thinnest.xMm, side: thinnest.side, value: thinnest.beforeMm, u: calliperUMm(gauge) },
    edgeAfterMm,
    centreAfterMm: centres.length === 0 ? null : leastLeft(centres, u),
    limitMm,
    dressingsLeft: dressingsLeft(edgeAfterMm.value - limitMm, instrument),
    places,
  };
}

/** How many usual dressings the wood above the limit is good for. */
function dressingsLeft(aboveLimitMm: number, instrument: Instrument): number {
  const roundingMm = 1e-9;
  return Math.max(0, Math.floor((aboveLimitMm + roundingMm) / instrument.dressingSpendMm.value));
}

function leastLeft(places: readonly ThicknessPlace[], u: number): Quantity {
  return { value: Math.min(...places.map((place) => place.afterMm ?? place.beforeMm)), u };
}

/** The place that has least wood above its limit, before or after planing. */
export function leastToSpare(places: readonly ThicknessPlace[], when: "before" | "after"): ThicknessPlace {
  const spare = (place: ThicknessPlace): number => spareMm(place, when) ?? Number.POSITIVE_INFINITY;
  return places.reduce((least, place) => (spare(place) < spare(least) - alikeMm ? place : least));
}

/** A plan that spares wood may leave several places alike but for rounding, mm: then the first in the file is named. */
const alikeMm = 1e-6;

/** Wood above the limit at a place; null where there is no plan. */
export function spareMm({ beforeMm, afterMm, limitMm }: ThicknessPlace, when: "before" | "after"): number | null {
  const thicknessMm = when === "before" ? beforeMm : afterMm;
  return thicknessMm === null ? null : thicknessMm - limitMm;
}

/** "the treble edge 260 mm from the nut". */
export function thicknessPlaceInWords({ xMm, side }: ThicknessPlace): string {
  const where = side === "centre" ? "the wood over the underside hollow" : `the ${side} edge`;
  return `${where} ${Math.round(xMm)} mm from the nut`;
}
