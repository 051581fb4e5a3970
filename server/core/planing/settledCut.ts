/**
 * From linear programmes to the true least cut: solve, linearise about what was found, and solve again until the target stands
 * still.
 *
 * A step that does not make the deepest cut smaller is not taken, and the next may only go a third as far: linearised far off,
 * the programme would swing to and fro. Every target found is tried against all places, and what it offends against joins
 * the working rows. Lengths in mm.
 */

import type { Arc } from "../examination.ts";
import type { SurfaceShape } from "../surface/idealSurface.ts";
import { cutsOn, deepestOver, type Ground, shortfallMm } from "./ground.ts";
import { type LinearCut, type LinearStep, offendsBeyond, solveLinearCut, type Touching } from "./linearCut.ts";
import {
  type Placement,
  type PlacementBounds,
  placementNames,
  type TargetFrame,
  targetGradient,
  targetShape,
  withinBounds,
} from "./targetSurface.ts";
import { firstRows, type WorkingRows } from "./workingRows.ts";

export type SettleTask = {
  readonly frame: TargetFrame;
  readonly ground: Ground;
  readonly bounds: PlacementBounds;
  readonly allowanceMm: number;
  readonly arc: Arc;
  /** With it the deepest cut is held, and what is made small is the sum of cut × weight at its places. */
  readonly second: { readonly keepDeepestMm: number; readonly places: readonly WeighedPlace[] } | null;
};

/** A place whose cut the second aim counts, so much. */
export type WeighedPlace = { readonly xMm: number; readonly yMm: number; readonly weight: number };

/** What is made small once the deepest cut is, and how much deeper that may be for it, mm. */
export type SecondAim = { readonly places: readonly WeighedPlace[]; readonly givesUpMm: number };

export type Settled = {
  readonly placement: Placement;
  readonly shape: SurfaceShape;
  readonly cutsMm: Float64Array;
  /** The deepest cut, once the target is let down so far that it stands nowhere above the present surface. */
  readonly deepestMm: number;
  /** Of the last programme: its rows, and what each bears. */
  readonly rows: WorkingRows;
  readonly step: LinearStep;
};

const mostRounds = 40;
/** A step of less than this share of its bounds is none. */
const leastReach = 1e-5;
/** The target stands still when no place moves by more than this, mm: the next step would be of its square. */
const stillMm = 1e-5;
/** A deepest cut that differs by less is the same, mm. */
const sameMm = 1e-9;

/** `earlier` rows of the same ground save finding them again. Null where no target meets every row. */
export function settle(task: SettleTask, start: Placement, earlier?: WorkingRows): Settled | null {
  const { frame, ground, allowanceMm, second } = task;
  const { plan } = frame.unworn;
  let placement = start;
  let shape = targetShape(frame, placement);
  let cutsMm = cutsOn(ground, plan, shape);
  let rows = earlier ?? firstRows(ground, allowanceMm, cutsMm);
  let settled: Settled | null = null;
  let touching: Touching | undefined;
  let reach = 1;
  for (let round = 0; round < mostRounds && reach > leastReach; round += 1) {
    const solved = solveAbout(task, placement, shape, cutsMm, rows, reach, touching);
    if (solved === null) return settled;
    const isTriedOnAll = solved.rows === rows;
    rows = solved.rows;
    touching = solved.step.touching;
    const deepestMm = deepestOver(ground, solved.cutsMm) + shortfallMm(solved.cutsMm, allowanceMm);
    const isStill = largestDifference(cutsMm, solved.cutsMm) < stillMm;
    if (settled === null || second !== null || deepestMm < settled.deepestMm + sameMm) {
      settled = { ...solved, deepestMm };
      ({ placement, shape, cutsMm } = solved);
    } else reach /= 3;
    if (isStill && isTriedOnAll) break;
  }
  return settled;
}

/**
 * The linear programme about a target, with every row that its answer offends against taken in. Rows that the target offends
 * against only because it is curved join too, but wait for the next programme.
 */
function solveAbout(
  task: SettleTask,
  placement: Placement,
  shape: SurfaceShape,
  cutsMm: Float64Array,
  earlier: WorkingRows,
  reach: number,
  startAt: Touching | undefined,
): Omit<Settled, "deepestMm"> | null {
  const { frame, ground, bounds, allowanceMm, arc } = task;
  const gradientAt = targetGradient(frame, shape);
  const second = task.second && {
    keepDeepestMm: task.second.keepDeepestMm,
    slopes: weighed(task.second.places, gradientAt),
  };
  const slopesAt = ({ rows }: WorkingRows): Float64Array => {
    const slopes = new Float64Array(rows.length * placementNames.length);
    rows.forEach(({ place }, k) => {
      gradientAt({ xMm: ground.xMm[place], yMm: ground.yMm[place] }, slopes, k * placementNames.length);
    });
    return slopes;
  };
  let rows = earlier;
  let slopes = slopesAt(rows);
  let touching = startAt;
  for (;;) {
    const linear: LinearCut = {
      ground,
      rows: rows.rows,
      slopes,
      cutsMm,
      placement,
      bounds,
      allowanceMm,
      arc,
      reach,
      second,
    };
    const step = solveLinearCut(linear, touching);
    if (step === null) return null;
    const next = withinBounds(step.placement, bounds);
    const nextShape = targetShape(frame, next);
    const nextCutsMm = cutsOn(ground, frame.unworn.plan, nextShape);
    const found = { placement: next, shape: nextShape, cutsMm: nextCutsMm, step };
    const more = rows.joinedBy(nextCutsMm, step.deepestMm);
    if (more === null) return { ...found, rows };
    const known = rows.rows.length;
    rows = more;
    slopes = slopesAt(rows);
    if (!offendsBeyond({ ...linear, rows: rows.rows, slopes }, step, known)) return { ...found, rows };
    touching = step.touching;
  }
}

/** How the second aim answers to the placement: a cut grows as the target falls. */
function weighed(places: readonly WeighedPlace[], gradientAt: ReturnType<typeof targetGradient>): Float64Array {
  const sum = new Float64Array(placementNames.length);
  const here = new Float64Array(placementNames.length);
  for (const place of places) {
    gradientAt(place, here, 0);
    for (let j = 0; j < sum.length; j += 1) sum[j] -= place.weight * here[j];
  }
  return sum;
}

function largestDifference(one: Float64Array, other: Float64Array): number {
  let most = 0;
  for (let i = 0; i < one.length; i += 1) most = Math.max(most, Math.abs(one[i] - other[i]));
  return most;
}
