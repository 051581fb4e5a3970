/**
 * Thickness before and after planing, at every place where the calliper was set.
 *
 * Edges: before less the cut of the unworn surface carried there. Over the hollowed underside: before less the cut of the
 * present surface. Standard uncertainty after: the calliper's limit of ±0.05 mm (a usual digital calliper, from memory) as a
 * rectangle, and the cut's. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Side, Thickness, ThicknessPlace } from "../examination.ts";
import type { ThicknessReading } from "../readings/readings.ts";
import { coverageFactor, type Quantity } from "../units.ts";

/** Limit of error of a digital calliper, ±mm. From memory. */
const calliperLimitMm = 0.05;

/** Expanded uncertainty of a thickness as the calliper reads it, mm. */
export const calliperUMm = coverageFactor * (calliperLimitMm / Math.sqrt(3));

function limitAtMm(instrument: Instrument, side: Side): number {
  return side === "centre" ? instrument.centreLimitMm.value : instrument.edgeLimitMm.value;
}

/** Expanded uncertainty of a thickness after planing, mm, from that of the cut. */
export function thicknessAfterUMm(cutUMm: number): number {
  return Math.hypot(calliperUMm, cutUMm);
}

/** `cutMm` at each reading, in their order; null where there is no plan. Null where no edge was measured. */
export function thicknessRemaining(
  readings: readonly ThicknessReading[],
  cutsMm: readonly number[] | null,
  cutUMm: number,
  instrument: Instrument,
): Thickness | null {
  const u = cutsMm ? thicknessAfterUMm(cutUMm) : calliperUMm;
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
    before: { xMm: thinnest.xMm, side: thinnest.side, value: thinnest.beforeMm, u: calliperUMm },
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
