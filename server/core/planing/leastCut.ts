/**
 * The least cut: the placement of the target that lies at or below the present surface and keeps the deepest cut smallest.
 *
 *   minimise t   subject to   allowance ≤ cut_i ≤ t,   cut_i = z_i − target(x_i, y_i)
 *
 * over every reading (repeats averaged) and over the unworn surface carried to both edges beside each crossline; then, within a
 * hair of that, the plainest arc; then, the deepest cut kept, the least of the second aim (the volume, or the edges). Some places
 * may have a cap of their own (the wood there is above the limit), or a head start (`spareMm`), so that the same programme also
 * finds the plan that spares the thinnest place.
 *
 * Linear in height and pitch; crown shifts, radii and hollows are linearised about the last placement and solved again
 * until the target stands still (settledCut.ts). Cuts are vertical, in mm, as edge thickness is.
 * The minimum-zone principle, one-sided; the optimum is certified by its multipliers (linearProgram.ts).
 */

import type { Arc } from "../examination.ts";
import type { SurfaceShape } from "../surface/idealSurface.ts";
import { type CutPlace, cutsOn, deepestOver, type Ground, groundOf, shortfallMm } from "./ground.ts";
import { type SecondAim, type Settled, type SettleTask, settle } from "./settledCut.ts";
import type { Placement, PlacementBounds, TargetFrame } from "./targetSurface.ts";
import type { CutRow } from "./workingRows.ts";

export type LeastCutTask = {
  readonly frame: TargetFrame;
  readonly places: readonly CutPlace[];
  readonly start: Placement;
  readonly bounds: PlacementBounds;
  readonly allowanceMm: number;
  /** How much deeper than the least cut a plainer arc may be, mm; null: the arc is left as it falls. */
  readonly plainWithinMm: number | null;
  /** What is made small once the deepest cut is; null: nothing. */
  readonly secondAim: SecondAim | null;
};

export type LeastCut =
  | {
      readonly outcome: "found";
      readonly placement: Placement;
      readonly shape: SurfaceShape;
      /** max(cut − spare) over the places that count. */
      readonly deepestMm: number;
      /** How much deeper the least cut is with one radius all along; null where it was not sought, or the bounds allow none. */
      readonly oneRadiusCostsMm: number | null;
      /** Cut at each place, in the order given. */
      readonly cutsMm: readonly number[];
      /** Share of the optimum that rests on each place: ≥ 0, summing to 1 over the places that govern the depth. */
      readonly depthShares: Float64Array;
      /** The same over the places where the target touches the present surface. */
      readonly contactShares: Float64Array;
      /** What one unit more of each place's cap would save of the deepest cut. */
      readonly capShares: Float64Array;
      /** What one unit more of room would save of the deepest cut: by parameter, positive at its upper bound, negative at its lower. */
      readonly pressure: Float64Array;
    }
  | { readonly outcome: "impossible" };

/** A second aim that gave up more than it may by this is left aside, mm. */
const mostAstrayMm = 1e-4;

export function leastCut(task: LeastCutTask): LeastCut {
  const ground = groundOf(task.places);
  const first = settle(toSettle(task, ground, "free"), task.start);
  if (first === null) return { outcome: "impossible" };
  const plain = plainest(task, ground, first);
  const placed = withSecondAim(task, ground, plain);
  const shape = letDown(placed, task.allowanceMm);
  const cutsMm = cutsOn(ground, task.frame.unworn.plan, shape);
  return {
    outcome: "found",
    placement: { ...placed.placement, heightMm: shape.heightMm - task.frame.unworn.shape.heightMm },
    shape,
    deepestMm: deepestOver(ground, cutsMm),
    oneRadiusCostsMm: plain.oneRadiusCostsMm,
    cutsMm: Array.from(cutsMm),
    depthShares: shares(first, ground, "ceiling"),
    contactShares: shares(first, ground, "floor"),
    capShares: shares(first, ground, "cap"),
    pressure: first.step.pressure,
  };
}

export type SmallestDeepestCut = {
  readonly deepestMm: number;
  /** Where the target lies then. */
  readonly start: Placement;
  readonly depthShares: Float64Array;
  readonly contactShares: Float64Array;
};

/** The smallest deepest cut alone, whatever the arc and without the second aim; null where none is possible. */
export function smallestDeepestCut(task: Omit<LeastCutTask, "secondAim" | "plainWithinMm">): SmallestDeepestCut | null {
  const ground = groundOf(task.places);
  const settled = settle(toSettle(task, ground, "free"), task.start);
  if (settled === null) return null;
  const depthShares = shares(settled, ground, "ceiling");
  const contactShares = shares(settled, ground, "floor");
  return { deepestMm: settled.deepestMm, start: settled.placement, depthShares, contactShares };
}

function toSettle(
  { frame, bounds, allowanceMm }: Pick<LeastCutTask, "frame" | "bounds" | "allowanceMm">,
  ground: Ground,
  arc: Arc,
): SettleTask {
  return { frame, ground, bounds, allowanceMm, arc, second: null };
}

type Plain = { readonly settled: Settled; readonly arc: Arc; readonly oneRadiusCostsMm: number | null };

/**
 * The plainest arc that costs next to nothing: one radius, or else a straight taper, or else what saves most. A luthier has a
 * template for the first, can make a row of them for the second, and has to file three by hand for the last.
 */
function plainest(task: LeastCutTask, ground: Ground, free: Settled): Plain {
  if (task.plainWithinMm === null) return { settled: free, arc: "free", oneRadiusCostsMm: null };
  const bestMm = free.deepestMm;
  const roomMm = task.plainWithinMm;
  const tied = (arc: Arc) => settle(toSettle(task, ground, arc), free.placement, free.rows);
  const isCheap = (settled: Settled | null): settled is Settled =>
    settled !== null && settled.deepestMm <= bestMm + roomMm;

  const one = tied("one radius");
  const oneRadiusCostsMm = one && Math.max(0, one.deepestMm - bestMm);
  if (isCheap(one)) return { settled: one, arc: "one radius", oneRadiusCostsMm };
  const straight = tied("straight taper");
  if (isCheap(straight)) return { settled: straight, arc: "straight taper", oneRadiusCostsMm };
  return { settled: free, arc: "free", oneRadiusCostsMm };
}

function withSecondAim(task: LeastCutTask, ground: Ground, { settled, arc }: Plain): Settled {
  if (task.secondAim === null) return settled;
  const { places, givesUpMm } = task.secondAim;
  const second = { keepDeepestMm: settled.deepestMm + givesUpMm, places };
  const spared = settle({ ...toSettle(task, ground, arc), second }, settled.placement, settled.rows);
  return spared && spared.deepestMm <= settled.deepestMm + givesUpMm + mostAstrayMm ? spared : settled;
}

/** Lowered until linearising leaves it nowhere above the present surface. */
function letDown({ shape, cutsMm }: Settled, allowanceMm: number): SurfaceShape {
  return { ...shape, heightMm: shape.heightMm - shortfallMm(cutsMm, allowanceMm) };
}

function shares({ rows, step }: Settled, ground: Ground, holds: CutRow["holds"]): Float64Array {
  const byPlace = new Float64Array(ground.count);
  step.multipliers.forEach((multiplier, k) => {
    const row = rows.rows[k];
    if (row.holds === holds) byPlace[row.place] = multiplier;
  });
  return byPlace;
}
