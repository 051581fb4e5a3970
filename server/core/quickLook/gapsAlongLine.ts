/**
 * Gaps under a straightedge laid along one line -> its hollow, and the place where the board is worn below its own curve.
 *
 * The straightedge lies from the nut to the bridge end. Where no gap was taken within a tenth of the length of an end, it is taken to
 * rest there. The hollow is the largest gap under a straightedge that rests on the highest places (a laid one does, unless it
 * rocks on a hump: then the gaps at its ends say so, and the hollow is minus the hump's height). Between the places where gaps were
 * taken the largest is found by the parabola through three.
 *
 * Local wear: how far a gap is wider than the smooth concave curve through all the others makes it, so that a pit can't hide in its
 * own curve. The curve is a + b·u + h·H(u), H that of the ideal surface with its deepest point as set, give or take 0.06.
 *
 * Uncertainty, standard: a gap lies within one step of the leaf written (a rectangle, step/√3; half of it where 0 was written: at most
 * the thinnest leaf); the parabola's rise over the largest gap read, as a rectangle. Lengths in mm.
 *
 * Example: gaps 0, 0.4, 0.7, 0.4, 0 at even distances -> hollow 0.7 halfway along; the curve through the others has 0.53 there.
 */
import { aboutNothing, foretold, withEquation } from "../maths/normalKnowledge.ts";
import { hollowShare } from "../surface/idealSurface.ts";
import { layStraightedge } from "../surface/straightedge.ts";
import { coverageFactor, type Quantity } from "../units.ts";

export type Gap = { readonly xMm: number; readonly gapMm: number };

export type GapsAlongLine = {
  readonly hollowMm: Quantity;
  readonly deepestAtMm: number;
  /** By how much each gap is wider than the others make it, the surest first; none where fewer than four were taken. */
  readonly wear: readonly { readonly xMm: number; readonly wearMm: Quantity }[];
  /** Ends where it was taken to rest without a gap having been taken there. */
  readonly endsTaken: readonly ("nut" | "bridge end")[];
};

export type LineOfGaps = {
  readonly lengthMm: number;
  readonly stepMm: number;
  /** Where the hollow is set to be deepest, a fraction of the length. */
  readonly deepest: number;
};

/** A straightedge whose first gap is farther from an end than this share of the length is taken to rest at that end. */
const endShare = 0.1;
const deepestSpread = 0.06;
/** How closely a board planed by hand follows its own curve: 0.02 mm (from memory). */
const handMm = 0.02;
const fewestForWear = 4;

export function gapsAlongLine(gaps: readonly Gap[], line: LineOfGaps): GapsAlongLine {
  const taken = meanOfRepeats(gaps);
  const isOpenAtNut = taken[0]!.xMm > endShare * line.lengthMm;
  const isOpenAtEnd = taken.at(-1)!.xMm < (1 - endShare) * line.lengthMm;
  const all = [
    ...(isOpenAtNut ? [{ xMm: 0, gapMm: 0 }] : []),
    ...taken,
    ...(isOpenAtEnd ? [{ xMm: line.lengthMm, gapMm: 0 }] : []),
  ];
  return {
    ...hollowOf(all, line),
    wear: taken.length < fewestForWear ? [] : wearOf(all, taken, line),
    endsTaken: [...(isOpenAtNut ? (["nut"] as const) : []), ...(isOpenAtEnd ? (["bridge end"] as const) : [])],
  };
}

/** Standard uncertainty of a gap, mm. */
export function gapUncertaintyMm(gapMm: number, stepMm: number): number {
  return (gapMm === 0 ? stepMm / 2 : stepMm) / Math.sqrt(3);
}

function hollowOf(all: readonly Gap[], { stepMm }: LineOfGaps): Pick<GapsAlongLine, "hollowMm" | "deepestAtMm"> {
  const xs = all.map(({ xMm }) => xMm);
  const heights = all.map(({ gapMm }) => -gapMm);
  const laid = layStraightedge(xs, heights);
  const at = xs.indexOf(laid.atMm);
  const own = gapUncertaintyMm(all[at]!.gapMm, stepMm);
  // Where the straightedge rests it has no gap; the two rests share the weight, so that half of one's variance is the least that counts.
  const rest = gapUncertaintyMm(0, stepMm);
  const last = xs.length - 1;
  const peak = at === 0 || at === last || laid.hollowMm < 0 ? null : peakOf(xs, laid.undersideMm, heights, at);
  const riseMm = peak === null ? 0 : peak.gapMm - laid.hollowMm;
  const variance = own ** 2 + rest ** 2 / 2 + riseMm ** 2 / 3;
  return {
    hollowMm: { value: laid.hollowMm + riseMm, u: coverageFactor * Math.sqrt(variance) },
    deepestAtMm: peak?.xMm ?? laid.atMm,
  };
}

/** The top of the parabola through the gap at `at` and its two neighbours, no farther than either of them. */
function peakOf(
  xs: readonly number[],
  undersideMm: readonly number[],
  heights: readonly number[],
  at: number,
): { xMm: number; gapMm: number } {
  const [x0, x1, x2] = [xs[at - 1]!, xs[at]!, xs[at + 1]!];
  const [g0, g1, g2] = [at - 1, at, at + 1].map((i) => undersideMm[i]! - heights[i]!) as [number, number, number];
  const before = (g1 - g0) / (x1 - x0);
  const after = (g2 - g1) / (x2 - x1);
  const bend = (after - before) / (x2 - x0);
  if (bend >= 0) return { xMm: x1, gapMm: g1 };
  const slopeAtMiddle = before + bend * (x1 - x0);
  const xMm = Math.min(x2, Math.max(x0, x1 - slopeAtMiddle / (2 * bend)));
  return { xMm, gapMm: g1 + slopeAtMiddle * (xMm - x1) + bend * (xMm - x1) ** 2 };
}

function wearOf(all: readonly Gap[], taken: readonly Gap[], line: LineOfGaps): GapsAlongLine["wear"] {
  const largestMm = Math.max(...all.map(({ gapMm }) => gapMm));
  return taken
    .filter(({ gapMm }) => gapMm > 0)
    .map(({ xMm, gapMm }) => {
      const others = all.filter((other) => other.xMm !== xMm);
      const { value, variance } = curveThrough(others, xMm, largestMm, line);
      const total = variance + gapUncertaintyMm(gapMm, line.stepMm) ** 2 + handMm ** 2;
      return { xMm, wearMm: { value: gapMm - value, u: coverageFactor * Math.sqrt(total) } };
    })
    .sort((a, b) => b.wearMm.value / b.wearMm.u - a.wearMm.value / a.wearMm.u);
}

/** What the curve through some gaps comes to elsewhere: unknowns a, b, h and the shift of the deepest point. */
function curveThrough(gaps: readonly Gap[], atMm: number, hollowMm: number, { lengthMm, stepMm, deepest }: LineOfGaps) {
  const rowAt = (xMm: number): Float64Array => {
    const u = xMm / lengthMm;
    const byDeepest = (hollowShare(u, deepest + 0.01) - hollowShare(u, deepest - 0.01)) / 0.02;
    return Float64Array.of(1, u, hollowShare(u, deepest), hollowMm * byDeepest);
  };
  const known = gaps.reduce(
    (knowledge, { xMm, gapMm }) =>
      withEquation(knowledge, rowAt(xMm), gapMm, gapUncertaintyMm(gapMm, stepMm) ** 2 + handMm ** 2),
    aboutNothing([10, 10, 10, deepestSpread]),
  );
  return foretold(known, rowAt(atMm));
}

/** Gaps in rising order of x; of several at one place the mean. */
function meanOfRepeats(gaps: readonly Gap[]): readonly Gap[] {
  const byPlace = new Map<number, number[]>();
  for (const { xMm, gapMm } of gaps) byPlace.set(xMm, [...(byPlace.get(xMm) ?? []), gapMm]);
  return [...byPlace]
    .map(([xMm, all]) => ({ xMm, gapMm: all.reduce((sum, gap) => sum + gap, 0) / all.length }))
    .sort((a, b) => a.xMm - b.xMm);
}
