/**
 * The least cut: the placement of the target that lies at or below the present surface and keeps the deepest cut smallest.
 *
 *   minimise t   subject to   allowance ≤ cut_i ≤ t,   cut_i = z_i − target(x_i, y_i)
 *
 * over every reading (repeats averaged) and over the unworn surface carried to both edges beside each crossline; then, the
 * deepest cut kept, the least volume. Some places may have a cap of their own (the wood there is above the limit), or a
 * head start (`spareMm`), so that the same programme also finds the plan that spares the thinnest place.
 *
 * Linear in height and pitch; crown shifts, radii and hollows are linearised about the last placement and solved again
 * until the target stands still. Cuts are vertical, in mm, as edge thickness is.
 * The minimum-zone principle, one-sided; the optimum is certified by its multipliers (linearProgram.ts).
 */
import { minimise } from "../maths/linearProgram.ts";
import { heightMm, type SurfaceShape } from "../surface/idealSurface.ts";
import { type Placement, placementNames, type TargetFrame, targetGradient, targetShape } from "./targetSurface.ts";

/** A place on the present surface that the target must not rise above. */
export type CutPlace = {
  readonly xMm: number;
  readonly yMm: number;
  /** Height of the present surface. */
  readonly presentMm: number;
  /** Cut there counts towards the deepest after this much; null: it does not count. */
  readonly spareMm: number | null;
  /** Cut there may not exceed this; null: no cap. */
  readonly capMm: number | null;
};

export type PlacementBounds = { readonly [name in keyof Placement]: readonly [number, number] };

export type LeastCutTask = {
  readonly frame: TargetFrame;
  readonly places: readonly CutPlace[];
  readonly start: Placement;
  readonly bounds: PlacementBounds;
  readonly allowanceMm: number;
  /** Where the volume is taken, for the second aim: a regular grid over the board; without any, there is no second aim. */
  readonly areaPlaces: readonly { readonly xMm: number; readonly yMm: number }[];
};

export type LeastCut =
  | {
      readonly outcome: "found";
      readonly placement: Placement;
      readonly shape: SurfaceShape;
      /** max(cut − spare) over the places that count. */
      readonly deepestMm: number;
      /** Cut at each place, in the order given. */
      readonly cutsMm: readonly number[];
      /** Share of the optimum that rests on each place: ≥ 0, summing to 1 over the places that govern the depth. */
      readonly depthShares: Float64Array;
      /** The same over the places where the target touches the present surface. */
      readonly contactShares: Float64Array;
    }
  | { readonly outcome: "impossible" };

const rounds = 40;
/** A step of less than this share of its bounds is none. */
const leastReach = 1e-5;
/** The target stands still when no place moves by more than this, mm: steps shrink as their square, so a ten-thousandth of it is left. */
const stillMm = 1e-3;

export function leastCut(task: LeastCutTask): LeastCut {
  const first = settle(task, task.start, null);
  if (first === null) return { outcome: "impossible" };
  const hasSecondAim = task.areaPlaces.length > 0;
  const second = (hasSecondAim && settle(task, first.placement, first.deepestMm + 1e-6)) || first;
  const placement = second.deepestMm <= first.deepestMm + 1e-4 ? second.placement : first.placement;
  const shape = lowered(task, targetShape(task.frame, placement));
  const cutsMm = cuts(task, shape);
  return {
    outcome: "found",
    placement: { ...placement, heightMm: shape.heightMm - task.frame.unworn.shape.heightMm },
    shape,
    deepestMm: deepest(task, cutsMm),
    cutsMm,
    depthShares: first.depthShares,
    contactShares: first.contactShares,
  };
}

/** The smallest deepest cut alone, without the second aim, and where the target lies then; null where none is possible. */
export function smallestDeepestCut(
  task: LeastCutTask,
): { readonly deepestMm: number; readonly start: Placement } | null {
  const settled = settle(task, task.start, null);
  return settled && { deepestMm: settled.deepestMm, start: settled.placement };
}

type Settled = {
  placement: Placement;
  deepestMm: number;
  depthShares: Float64Array;
  contactShares: Float64Array;
};

/**
 * Solve the linearised programme until the target stands still. With `keepDeepestMm` the deepest cut is held there and
 * the volume is what is made small. A step that does not make the deepest cut smaller is not taken, and the next may only go a
 * third as far: linearised far off, the programme would swing to and fro.
 */
function settle(task: LeastCutTask, start: Placement, keepDeepestMm: number | null): Settled | null {
  let placement = start;
  let shape = targetShape(task.frame, placement);
  let settled: Settled | null = null;
  let reach = 1;
  let touching: readonly number[] | undefined;
  for (let round = 0; round < rounds && reach > leastReach; round += 1) {
    const cutsMm = cuts(task, shape);
    const solved = solveLinear(
      task,
      linearise(task, shape, cutsMm, keepDeepestMm !== null),
      placement,
      keepDeepestMm,
      reach,
      touching,
    );
    if (solved === null) return settled;
    touching = solved.touching;
    const next = withinBounds(solved.placement, task.bounds);
    const nextShape = targetShape(task.frame, next);
    const nextCutsMm = cuts(task, nextShape);
    const deepestMm = deepest(task, nextCutsMm) + shortfallMm(task, nextCutsMm);
    const gains = settled === null || keepDeepestMm !== null || deepestMm < settled.deepestMm + 1e-9;
    if (gains) {
      placement = next;
      shape = nextShape;
      settled = { placement, deepestMm, depthShares: solved.depthShares, contactShares: solved.contactShares };
    } else reach /= 3;
    if (cutsMm.every((cut, i) => Math.abs(cut - nextCutsMm[i]) < stillMm)) break;
  }
  return settled;
}

type Linear = {
  readonly cutsMm: readonly number[];
  readonly gradient: Float64Array;
  readonly areaGradient: Float64Array;
};

/** Cuts of a target and their derivatives by its placement (minus the target's); of the mean cut only where it is asked for. */
function linearise(task: LeastCutTask, shape: SurfaceShape, cutsMm: readonly number[], withArea: boolean): Linear {
  const count = placementNames.length;
  const gradientAt = targetGradient(task.frame, shape);
  const gradient = new Float64Array(task.places.length * count);
  task.places.forEach((place, i) => {
    gradientAt(place, gradient, i * count);
  });
  const areaGradient = new Float64Array(count);
  const here = new Float64Array(count);
  for (const place of withArea ? task.areaPlaces : []) {
    gradientAt(place, here, 0);
    for (let j = 0; j < count; j += 1) areaGradient[j] -= here[j] / task.areaPlaces.length;
  }
  return { cutsMm, gradient: gradient.map((slope) => -slope), areaGradient };
}

/** One linear programme in the change of placement and t. Rows: floors, then ceilings, then caps. */
function solveLinear(
  task: LeastCutTask,
  linear: Linear,
  placement: Placement,
  keepDeepestMm: number | null,
  reach: number,
  startAt: readonly number[] | undefined,
) {
  const count = placementNames.length;
  const columns = count + 1;
  const counting = task.places.flatMap((place, i) => (place.spareMm === null ? [] : [i]));
  const capped = task.places.flatMap((place, i) => (place.capMm === null ? [] : [i]));
  const rows = task.places.length + counting.length + capped.length;
  const coefficients = new Float64Array(rows * columns);
  const atMost = new Float64Array(rows);
  const setRow = (row: number, place: number, sign: 1 | -1, byT: number, limit: number): void => {
    for (let j = 0; j < count; j += 1) coefficients[row * columns + j] = sign * linear.gradient[place * count + j];
    coefficients[row * columns + count] = byT;
    atMost[row] = limit;
  };
  task.places.forEach((_, i) => {
    setRow(i, i, -1, 0, linear.cutsMm[i] - task.allowanceMm);
  });
  counting.forEach((i, k) => {
    setRow(task.places.length + k, i, 1, -1, (task.places[i].spareMm ?? 0) - linear.cutsMm[i]);
  });
  capped.forEach((i, k) => {
    setRow(task.places.length + counting.length + k, i, 1, 0, (task.places[i].capMm ?? 0) - linear.cutsMm[i]);
  });
  const bounds = placementNames.map((name): [number, number] => {
    const [lower, upper] = task.bounds[name];
    const farthest = reach * (upper - lower);
    return [Math.max(lower - placement[name], -farthest), Math.min(upper - placement[name], farthest)];
  });
  const optimum = minimise(
    {
      objective: keepDeepestMm === null ? [...placementNames.map(() => 0), 1] : [...linear.areaGradient, 0],
      rows: { columns, coefficients, atMost },
      bounds: [...bounds, keepDeepestMm === null ? [-1e3, 1e3] : [-1e3, keepDeepestMm]],
    },
    startAt,
  );
  if (optimum.outcome !== "optimal") return null;
  const moved = Object.fromEntries(
    placementNames.map((name, j) => [name, placement[name] + optimum.x[j]]),
  ) as Placement;
  const depthShares = new Float64Array(task.places.length);
  counting.forEach((i, k) => {
    depthShares[i] = optimum.multipliers[task.places.length + k];
  });
  return {
    placement: moved,
    depthShares,
    contactShares: optimum.multipliers.slice(0, task.places.length),
    touching: optimum.touching,
  };
}

function cuts(task: LeastCutTask, shape: SurfaceShape): readonly number[] {
  return task.places.map(({ xMm, yMm, presentMm }) => presentMm - heightMm(task.frame.unworn.plan, shape, xMm, yMm));
}

function deepest(task: LeastCutTask, cutsMm: readonly number[]): number {
  return cutsMm.reduce((most, cut, i) => {
    const spare = task.places[i].spareMm;
    return spare === null ? most : Math.max(most, cut - spare);
  }, Number.NEGATIVE_INFINITY);
}

/** How far the target must be let down so that linearising leaves it nowhere above the present surface, mm. */
function shortfallMm(task: LeastCutTask, cutsMm: readonly number[]): number {
  return cutsMm.reduce((most, cut) => Math.max(most, task.allowanceMm - cut), 0);
}

function lowered(task: LeastCutTask, shape: SurfaceShape): SurfaceShape {
  return { ...shape, heightMm: shape.heightMm - shortfallMm(task, cuts(task, shape)) };
}

function withinBounds(placement: Placement, bounds: PlacementBounds): Placement {
  return Object.fromEntries(
    placementNames.map((name) => [name, Math.min(Math.max(placement[name], bounds[name][0]), bounds[name][1])]),
  ) as Placement;
}
