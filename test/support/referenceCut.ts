/**
 * The least cut by another road: the same programme written as text and solved by HiGHS, round after round.
 *
 *   minimise t   subject to   allowance ≤ present_i − target(x_i, y_i) ≤ t
 *
 * with the target free in height, pitch, crown shifts, radii and hollows within bounds. Each round linearises about the last
 * placement, moves within a trust region, and is kept only if the true deepest cut falls. Lengths in mm.
 */
import loadHighs from "highs";
import type { Plan } from "../../data/make/recipe.ts";
import { at, familyHeightMm, type Parameters, type Ridge, type Spot, withHollows } from "./referenceSurface.ts";

const highs = await loadHighs();

/** A place on the present surface; `counts` says whether its cut belongs to the deepest. */
export type PresentSpot = Spot & { readonly presentMm: number; readonly counts: boolean };

export type Bounds = {
  readonly pitch: number;
  readonly crownMm: number;
  /** Radii at nut, middle and end; hollows under the lowest and highest string; each ± its band. */
  readonly radiiMm: readonly [number, number, number];
  readonly radiusBandMm: number;
  readonly hollowsMm: readonly [number, number];
  readonly hollowBandMm: number;
  readonly allowanceMm: number;
  readonly deepestAt: number;
};

export type ReferenceCut = { readonly deepestMm: number; readonly target: Parameters };

/** Deepest cut at each of the placements below: height, pitch, crowns, radii, hollows as a straightedge shows them. */
type Placed = readonly number[];

export function referenceCut(
  plan: Plan,
  ridge: Ridge,
  unworn: Parameters,
  spots: readonly PresentSpot[],
  bounds: Bounds,
): ReferenceCut {
  const [low, high] = limits(bounds);
  const targetOf = (placed: Placed): Parameters => {
    const shape = [
      ...[0, 1, 2, 3].map((j) => unworn[j]! + placed[j]!),
      ...placed.slice(4),
      bounds.deepestAt,
      unworn[at.slopeNut]!,
      unworn[at.slopeEnd]!,
    ];
    return withHollows(plan, ridge, shape, placed[7]!, placed[8]!);
  };
  const cutsOf = (placed: Placed): number[] => {
    const target = targetOf(placed);
    return spots.map(({ xMm, yMm, presentMm }) => presentMm - familyHeightMm(plan, ridge, target, xMm, yMm));
  };
  /** Deepest cut once the target is let down far enough to touch and no further. */
  const worth = (placed: Placed): { deepestMm: number; shiftMm: number } => {
    const cuts = cutsOf(placed);
    const shiftMm = Math.min(...cuts) - bounds.allowanceMm;
    return { deepestMm: Math.max(...cuts.filter((_, i) => spots[i]!.counts)) - shiftMm, shiftMm };
  };

  const middle = [0, 0, 0, 0, ...bounds.radiiMm, ...bounds.hollowsMm];
  let placed: Placed = middle.map((value, j) => Math.min(Math.max(value, low[j]!), high[j]!));
  let best = worth(placed);
  let trust = 1;
  for (let round = 0; round < 60 && trust > 1e-4; round++) {
    const cuts = cutsOf(placed);
    const slopes = placed.map((_, j) => {
      const up = cutsOf(placed.map((value, k) => (k === j ? value + steps[j]! : value)));
      return up.map((cut, i) => (cut - cuts[i]!) / steps[j]!);
    });
    const moved = solveRound(spots, cuts, slopes, placed, low, high, trust, bounds.allowanceMm);
    if (moved === null) break;
    const worthMoved = worth(moved);
    const gainMm = best.deepestMm - worthMoved.deepestMm;
    if (gainMm > 0) {
      placed = moved;
      best = worthMoved;
    }
    if (gainMm < 1e-7) trust /= 4;
  }
  const touching = placed.map((value, j) => (j === 0 ? value + best.shiftMm : value));
  return { deepestMm: best.deepestMm, target: targetOf(touching) };
}

/** Step of the numeric derivatives, and the widest move of a round: height, pitch, crowns, radii, hollows. */
const steps = [1e-4, 1e-6, 1e-3, 1e-3, 1e-3, 1e-3, 1e-3, 1e-4, 1e-4];
const widest = [2, 0.01, 2, 2, 2, 2, 2, 0.5, 0.5];

function limits(bounds: Bounds): [low: number[], high: number[]] {
  const reach = [100, bounds.pitch, bounds.crownMm, bounds.crownMm];
  const radii = bounds.radiiMm.map((radius) => [radius, bounds.radiusBandMm] as const);
  const hollows = bounds.hollowsMm.map((hollow) => [hollow, bounds.hollowBandMm] as const);
  const around = [...reach.map((far) => [0, far] as const), ...radii, ...hollows];
  return [around.map(([middle, far]) => middle - far), around.map(([middle, far]) => middle + far)];
}

/** One round in the text format of linear programmes; moves are scaled to their widest. */
function solveRound(
  spots: readonly PresentSpot[],
  cuts: readonly number[],
  slopes: readonly (readonly number[])[],
  placed: Placed,
  low: readonly number[],
  high: readonly number[],
  trust: number,
  allowanceMm: number,
): Placed | null {
  const sum = (i: number): string => slopes.map((slope, j) => signed(slope[i]! * widest[j]!, `m${j}`)).join(" ");
  const rows = spots.flatMap((spot, i) => {
    const floor = ` f${i}: ${sum(i)} >= ${fixed(allowanceMm - cuts[i]!)}`;
    return spot.counts ? [floor, ` c${i}: ${sum(i)} - t <= ${fixed(-cuts[i]!)}`] : [floor];
  });
  const ranges = placed.map((value, j) => {
    const from = Math.max(-trust, (low[j]! - value) / widest[j]!);
    const to = Math.min(trust, (high[j]! - value) / widest[j]!);
    return ` ${fixed(Math.min(0, from))} <= m${j} <= ${fixed(Math.max(0, to))}`;
  });
  const text = ["Minimize", " deepest: t", "Subject To", ...rows, "Bounds", ...ranges, " t free", "End"].join("\n");
  const solved = highs.solve(text, { primal_feasibility_tolerance: 1e-9, dual_feasibility_tolerance: 1e-9 });
  if (solved.Status !== "Optimal") return null;
  return placed.map((value, j) => value + solved.Columns[`m${j}`]!.Primal * widest[j]!);
}

function signed(factor: number, name: string): string {
  return `${factor < 0 ? "-" : "+"} ${fixed(Math.abs(factor))} ${name}`;
}

function fixed(value: number): string {
  return value.toFixed(12);
}
