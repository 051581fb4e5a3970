/**
 * One linear programme of the least cut: how the placement should change if cuts answered to it in a straight line.
 *
 *   minimise t   subject to   allowance ≤ cut_i + slopes_i·change,   cut_i + slopes_i·change − spare_i ≤ t,   … ≤ cap_i
 *
 * or, the deepest cut held at t, the least of what the second aim weighs. Columns: the change of placement, then t. Rows: the ties
 * of the arc (each from both sides), then the working rows. Lengths in mm.
 */

import type { Arc } from "../examination.ts";
import { minimise } from "../maths/linearProgram.ts";
import { tiesOf } from "./arc.ts";
import type { Ground } from "./ground.ts";
import { type Placement, type PlacementBounds, placementNames } from "./targetSurface.ts";
import { type CutRow, offenceMm } from "./workingRows.ts";

export type LinearCut = {
  readonly ground: Ground;
  readonly rows: readonly CutRow[];
  /** Derivatives of the target's height by its placement, row after row. */
  readonly slopes: Float64Array;
  /** Cut at every place of the ground, where it is linearised. */
  readonly cutsMm: Float64Array;
  readonly placement: Placement;
  readonly bounds: PlacementBounds;
  readonly allowanceMm: number;
  readonly arc: Arc;
  /** Share of its bounds that a parameter may move at once. */
  readonly reach: number;
  /** The deepest cut to keep, and what the second aim weighs by the placement; null: the deepest cut itself is made small. */
  readonly second: { readonly keepDeepestMm: number; readonly slopes: Float64Array } | null;
};

export type LinearStep = {
  readonly placement: Placement;
  /** t, as the straight line has it. */
  readonly deepestMm: number;
  /** One for each working row, ≥ 0. */
  readonly multipliers: Float64Array;
  /** What one unit more of room would save, by parameter: positive at its upper bound, negative at its lower one. */
  readonly pressure: Float64Array;
  /** Constraints that touch, for `startAt`: the working rows may have grown since. */
  readonly touching: Touching;
};

export type Touching = { readonly rows: number; readonly constraints: readonly number[] };

const columns = placementNames.length + 1;
const tColumn = placementNames.length;
const farMm = 1e3;

/** Null where no change within the bounds meets every row. */
export function solveLinearCut(task: LinearCut, startAt: Touching | undefined): LinearStep | null {
  const { placement, bounds, second } = task;
  const placed = placementNames.map((name) => placement[name]);
  const ties = tiesOf(task.arc);
  const rowCount = 2 * ties.length + task.rows.length;
  const coefficients = new Float64Array(rowCount * columns);
  const atMost = new Float64Array(rowCount);
  ties.forEach((tie, k) => {
    const off = tie.reduce((sum, factor, j) => sum + factor * placed[j], 0);
    [1, -1].forEach((sign, side) => {
      const row = 2 * k + side;
      tie.forEach((factor, j) => {
        coefficients[row * columns + j] = sign * factor;
      });
      atMost[row] = -sign * off;
    });
  });
  task.rows.forEach(({ place, holds }, k) => {
    const row = 2 * ties.length + k;
    const sign = holds === "floor" ? 1 : -1;
    for (let j = 0; j < tColumn; j += 1) coefficients[row * columns + j] = sign * task.slopes[k * tColumn + j];
    coefficients[row * columns + tColumn] = holds === "ceiling" ? -1 : 0;
    atMost[row] = roomMm(task, place, holds);
  });
  const ranges = placementNames.map((name, j): [number, number] => {
    const [lower, upper] = bounds[name];
    const farthest = task.reach * (upper - lower);
    return [Math.max(lower - placed[j], -farthest), Math.min(upper - placed[j], farthest)];
  });
  const optimum = minimise(
    {
      objective: second ? [...second.slopes, 0] : [...placementNames.map(() => 0), 1],
      rows: { columns, coefficients, atMost },
      bounds: [...ranges, second ? [second.keepDeepestMm, second.keepDeepestMm] : [-farMm, farMm]],
    },
    startAt && renumbered(startAt, rowCount),
  );
  if (optimum.outcome !== "optimal") return null;
  return {
    placement: Object.fromEntries(placementNames.map((name, j) => [name, placed[j] + optimum.x[j]])) as Placement,
    deepestMm: optimum.x[tColumn],
    multipliers: optimum.multipliers.slice(2 * ties.length),
    pressure: pressureOn(coefficients, optimum.multipliers),
    touching: { rows: rowCount, constraints: optimum.touching },
  };
}

/** Whether a step breaks any of the rows after the first `known`, as the straight line has it. */
export function offendsBeyond(task: LinearCut, step: LinearStep, known: number): boolean {
  return task.rows.slice(known).some(({ place, holds }, k) => {
    let risenMm = 0;
    placementNames.forEach((name, j) => {
      risenMm += task.slopes[(known + k) * tColumn + j] * (step.placement[name] - task.placement[name]);
    });
    const lackMm = holds === "floor" ? risenMm : -risenMm - (holds === "ceiling" ? step.deepestMm : 0);
    return lackMm > roomMm(task, place, holds) + offenceMm;
  });
}

/** How far a row is from being broken before any change. */
function roomMm({ ground, cutsMm, allowanceMm }: LinearCut, place: number, holds: CutRow["holds"]): number {
  if (holds === "floor") return cutsMm[place] - allowanceMm;
  return (holds === "ceiling" ? ground.spareMm[place] : ground.capMm[place]) - cutsMm[place];
}

/** What the rows leave unbalanced is what the bounds bear: −Aᵀ·multipliers. */
function pressureOn(coefficients: Float64Array, multipliers: Float64Array): Float64Array {
  const pressure = new Float64Array(tColumn);
  multipliers.forEach((multiplier, row) => {
    if (multiplier === 0) return;
    for (let j = 0; j < tColumn; j += 1) pressure[j] -= multiplier * coefficients[row * columns + j];
  });
  return pressure;
}

/** Bounds are numbered after the rows, and new rows come after the old ones. */
function renumbered({ rows, constraints }: Touching, rowCount: number): readonly number[] {
  return constraints.map((constraint) => (constraint < rows ? constraint : constraint + rowCount - rows));
}
