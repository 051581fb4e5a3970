/**
 * Linear programme: the x that makes c·x smallest where A·x ≤ b and every x_j lies between its bounds.
 *
 * in   objective c (n numbers), rows A (m × n, row by row) and b, bounds (each finite or ±Infinity)
 * out  "optimal" with x, the objective and one multiplier ≥ 0 per row (what one unit more of b would save; zero where the row
 *      does not touch); or "infeasible"; or "unbounded"
 *
 * Meant for few variables and many rows (12 and 20,000): a board's target against all its readings.
 *
 * Method: exchange, which is the dual simplex method seen from the side of the few variables. At every step n constraints
 * touch: x is their corner, and −c is a combination of their directions with multipliers ≥ 0, so that x is the best for these
 * n alone. The most violated constraint comes in, the one whose multiplier first falls to zero goes out, until nothing is
 * violated. A step costs one pass over the rows; the corner is computed afresh each time, so that rounding does not pile up.
 *
 * A variable without bounds starts on a placeholder x_j = 0, or, where the objective pulls it away, on a bound infinitely far
 * off. That is carried as a second number beside each value (near + far·infinity), never as some very large one.
 *
 * Every optimum is certified by its conditions before it is returned (optimalityCertificate.ts).
 *
 * Source: V. Chvátal, Linear Programming (1983), chs. 8 and 10; where the objective stands still, the rule of R. G. Bland,
 * Math. Oper. Res. 2 (1977) 103–107 (both from memory). Checked against published optima and a second implementation.
 *
 * Example: minimise −x − y where x + 2y ≤ 4, 0 ≤ x ≤ 2, 0 ≤ y: x = 2, y = 1, objective −3, multiplier 0.5.
 */
import { certify } from "./optimalityCertificate.ts";
import {
  directionOf,
  isPlaceholder,
  limitOf,
  placeholderOf,
  type ScaledProgramme,
  scaleProgramme,
} from "./scaledProgramme.ts";
import { squareInverse } from "./squareInverse.ts";

export type Programme = {
  readonly objective: readonly number[];
  readonly rows: { readonly columns: number; readonly coefficients: Float64Array; readonly atMost: Float64Array };
  readonly bounds: readonly (readonly [lower: number, upper: number])[];
};

export type Optimal = {
  readonly outcome: "optimal";
  readonly x: Float64Array;
  readonly objective: number;
  /** One per row, ≥ 0. */
  readonly multipliers: Float64Array;
  /** Numbers of the n constraints that touch: of use only as `startAt` of another call. */
  readonly touching: readonly number[];
};

export type Optimum = Optimal | { readonly outcome: "infeasible" } | { readonly outcome: "unbounded" };

/** A constraint is violated beyond this share of the corner's size: the rounding of a corner, with room. */
const slack = 1e-11;
/** A violation up to this share that no exchange can mend is rounding, not infeasibility. */
const unmendableSlack = 1e-9;
/** Shares of a direction, and multipliers, below this are rounding (directions and objective are scaled to 1). */
const smallestPivot = 1e-10;
const smallestMultiplier = 1e-12;
const mostSteps = 20_000;

/**
 * `startAt` takes the `touching` of an earlier answer. A programme that differs from that one only in b is then a few steps
 * from its optimum; where the start does not suit, it is left aside. The optimum is the same either way.
 *
 * Throws a RangeError where sizes don't match or a number is NaN; an Error where an optimum fails its certificate.
 */
export function minimise(programme: Programme, startAt?: readonly number[]): Optimum {
  checkSizes(programme);
  if (programme.bounds.some(([lower, upper]) => lower > upper)) return { outcome: "infeasible" };

  const scaled = scaleProgramme(programme);
  const last = exchange(scaled, (startAt && suitableCorner(scaled, startAt)) ?? firstCorner(scaled));
  if (last === "infeasible") return { outcome: "infeasible" };
  if (last.touching.some((constraint) => limitOf(scaled, constraint) === Infinity)) return { outcome: "unbounded" };

  const scaledMultipliers = new Float64Array(scaled.m);
  last.touching.forEach((constraint, k) => {
    if (constraint < scaled.m) scaledMultipliers[constraint] = last.multipliers[k]!;
  });
  const certificate = certify(scaled, last.near, scaledMultipliers);
  if (!certificate.holds) throw new Error(`linear programme: optimum not certified: ${JSON.stringify(certificate)}`);

  const x = last.near.map((value, j) => {
    const [lower, upper] = programme.bounds[j]!;
    return Math.min(upper, Math.max(lower, value * scaled.columnScale[j]!));
  });
  return {
    outcome: "optimal",
    x,
    objective: programme.objective.reduce((sum, cost, j) => sum + cost * x[j]!, 0),
    multipliers: scaledMultipliers.map((multiplier, i) => multiplier * scaled.rowScale[i]! * scaled.objectiveScale),
    touching: last.touching,
  };
}

/** The corner near + far·infinity where n constraints touch; multipliers in the order of `touching`. */
type Corner = {
  readonly touching: readonly number[];
  /** Inverse of the matrix whose rows are the touching constraints' directions, row by row. */
  readonly inverse: Float64Array;
  readonly near: Float64Array;
  readonly far: Float64Array;
  readonly multipliers: Float64Array;
};

function exchange(programme: ScaledProgramme, start: Corner): Corner | "infeasible" {
  const patience = 3 * programme.n + 10;
  const unmendable = new Set<number>();
  let corner = start;
  let standingStill = 0;
  for (let step = 0; step < mostSteps; step++) {
    const takeFirst = standingStill > patience;
    const entering = violatedConstraint(programme, corner, unmendable, takeFirst);
    if (entering === null) return corner;

    const leaving = leavingConstraint(programme, corner, directionOf(programme, entering.constraint), takeFirst);
    if (leaving === null) {
      if (entering.share > unmendableSlack) return "infeasible";
      unmendable.add(entering.constraint);
      continue;
    }
    standingStill = leaving.stepLength > smallestMultiplier ? 0 : standingStill + 1;
    const next = cornerOf(programme, corner.touching.with(leaving.index, entering.constraint));
    if (next === null) throw new Error("linear programme: the touching constraints don't make a corner");
    corner = next;
  }
  throw new Error(`linear programme: no optimum within ${mostSteps} steps`);
}

/**
 * Every variable on the bound that the objective pushes it to, be it infinitely far; a variable the objective does not
 * touch on any finite bound, or else on its placeholder.
 */
function firstCorner(programme: ScaledProgramme): Corner {
  const { m, n, objective, lower, upper } = programme;
  const touching = Array.from(objective, (cost, j) => {
    if (cost > 0 || (cost === 0 && lower[j] !== -Infinity)) return m + n + j;
    if (cost < 0 || upper[j] !== Infinity) return m + j;
    return placeholderOf(programme, j);
  });
  return cornerOf(programme, touching)!;
}

/** The corner of an earlier answer, where its multipliers are still ≥ 0 in this programme. */
function suitableCorner(programme: ScaledProgramme, touching: readonly number[]): Corner | undefined {
  const { m, n } = programme;
  const fits =
    touching.length === n &&
    touching.every((constraint) => constraint < m + 3 * n && limitOf(programme, constraint) < Infinity);
  const corner = fits ? cornerOf(programme, touching) : null;
  const suits = corner?.rawMultipliers.every(
    (multiplier, k) =>
      multiplier >= -smallestMultiplier &&
      (multiplier <= smallestMultiplier || !isPlaceholder(programme, touching[k]!)),
  );
  return suits ? corner! : undefined;
}

/** Null where the directions don't span the space. An infinitely far bound without a multiplier gives way to a placeholder. */
function cornerOf(
  programme: ScaledProgramme,
  touching: readonly number[],
): (Corner & { rawMultipliers: Float64Array }) | null {
  const { m, n, objective } = programme;
  const directions = new Float64Array(n * n);
  touching.forEach((constraint, k) => {
    directions.set(directionOf(programme, constraint), k * n);
  });
  const inverse = squareInverse(directions, n);
  if (inverse === null) return null;

  const rawMultipliers = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    for (let j = 0; j < n; j++) rawMultipliers[k] = rawMultipliers[k]! - objective[j]! * inverse[j * n + k]!;
  }
  const idle = touching.findIndex(
    (constraint, k) => limitOf(programme, constraint) === Infinity && rawMultipliers[k]! <= smallestMultiplier,
  );
  if (idle >= 0) return cornerOf(programme, touching.with(idle, placeholderOf(programme, (touching[idle]! - m) % n)));

  const near = new Float64Array(n);
  const far = new Float64Array(n);
  touching.forEach((constraint, k) => {
    const limit = limitOf(programme, constraint);
    const target = limit === Infinity ? far : near;
    for (let j = 0; j < n; j++) target[j] = target[j]! + inverse[j * n + k]! * (limit === Infinity ? 1 : limit);
  });
  const multipliers = rawMultipliers.map((multiplier) => (multiplier > smallestMultiplier ? multiplier : 0));
  return { touching, inverse, near, far, multipliers, rawMultipliers };
}

type Violated = {
  readonly constraint: number /** Share of the corner's size; Infinity where it grows without end. */;
  readonly share: number;
};

/** The most violated constraint, or the first (Bland) where `takeFirst`; null where none is. */
function violatedConstraint(
  programme: ScaledProgramme,
  corner: Corner,
  leaveOut: ReadonlySet<number>,
  takeFirst: boolean,
): Violated | null {
  const { m, n, coefficients, atMost, lower, upper } = programme;
  const { near, far } = corner;
  const touching = new Set(corner.touching);
  const size = sizeOf(programme, corner);
  const farSize = far.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  let worst: number | null = null;
  let worstNear = slack * size;
  let worstFar = slack * farSize;

  const consider = (constraint: number, overNear: number, overFar: number): boolean => {
    if (touching.has(constraint) || leaveOut.has(constraint)) return false;
    if (overFar > worstFar && overFar > smallestPivot * farSize) {
      worstFar = overFar;
      worstNear = Infinity;
      worst = constraint;
      return takeFirst;
    }
    if (overNear > worstNear && Math.abs(overFar) <= smallestPivot * farSize) {
      worstNear = overNear;
      worst = constraint;
      return takeFirst;
    }
    return false;
  };

  for (let i = 0; i < m; i++) {
    let nearReach = 0;
    for (let j = 0; j < n; j++) nearReach += coefficients[i * n + j]! * near[j]!;
    let farReach = 0;
    if (farSize > 0) for (let j = 0; j < n; j++) farReach += coefficients[i * n + j]! * far[j]!;
    const over = nearReach - atMost[i]!;
    if ((over > worstNear || farReach > worstFar) && consider(i, over, farReach)) break;
  }
  for (let j = 0; j < n && !(takeFirst && worst !== null); j++) {
    if (upper[j]! < Infinity && consider(m + j, near[j]! - upper[j]!, far[j]!)) break;
    if (lower[j]! > -Infinity && consider(m + n + j, lower[j]! - near[j]!, -far[j]!)) break;
  }
  if (worst === null) return null;
  return { constraint: worst, share: worstNear / size };
}

/** Largest number that a corner's constraints and variables deal in. */
function sizeOf(programme: ScaledProgramme, corner: Corner): number {
  let size = Number.MIN_VALUE;
  for (const value of corner.near) size = Math.max(size, Math.abs(value));
  for (const constraint of corner.touching) {
    const limit = Math.abs(limitOf(programme, constraint));
    if (limit < Infinity) size = Math.max(size, limit);
  }
  return size;
}

/**
 * Which of the touching constraints gives way to one of direction `entering`: a placeholder that it moves, or else the one
 * whose multiplier falls to zero first. Null where none can: then no x satisfies them all.
 */
function leavingConstraint(
  programme: ScaledProgramme,
  { touching, inverse, multipliers }: Corner,
  entering: Float64Array,
  takeFirst: boolean,
): { readonly index: number; readonly stepLength: number } | null {
  const { n } = programme;
  const shares = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    for (let j = 0; j < n; j++) shares[k] = shares[k]! + entering[j]! * inverse[j * n + k]!;
  }

  let placeholder = -1;
  let stepLength = Infinity;
  for (let k = 0; k < n; k++) {
    if (isPlaceholder(programme, touching[k]!)) {
      const moved = Math.abs(shares[k]!);
      if (moved > smallestPivot && (placeholder < 0 || moved > Math.abs(shares[placeholder]!))) placeholder = k;
    } else if (shares[k]! > smallestPivot) {
      stepLength = Math.min(stepLength, multipliers[k]! / shares[k]!);
    }
  }
  if (placeholder >= 0) return { index: placeholder, stepLength: 0 };
  if (stepLength === Infinity) return null;

  let index = -1;
  for (let k = 0; k < n; k++) {
    if (isPlaceholder(programme, touching[k]!) || !(shares[k]! > smallestPivot)) continue;
    if (multipliers[k]! > stepLength * shares[k]! + smallestMultiplier) continue;
    const better = index < 0 || (takeFirst ? touching[k]! < touching[index]! : shares[k]! > shares[index]!);
    if (better) index = k;
  }
  return { index, stepLength };
}

function checkSizes({ objective, rows, bounds }: Programme): void {
  const n = rows.columns;
  if (n < 1) throw new RangeError("linear programme: no variables");
  if (objective.length !== n) throw new RangeError(`linear programme: ${objective.length} costs, ${n} variables`);
  if (bounds.length !== n) throw new RangeError(`linear programme: ${bounds.length} bounds, ${n} variables`);
  if (rows.coefficients.length !== rows.atMost.length * n) {
    throw new RangeError("linear programme: the coefficients don't fill rows × columns");
  }
  if (!objective.every(Number.isFinite) || !rows.coefficients.every(Number.isFinite)) {
    throw new RangeError("linear programme: a cost or coefficient is not finite");
  }
  if (rows.atMost.some(Number.isNaN) || bounds.flat().some(Number.isNaN)) {
    throw new RangeError("linear programme: a limit is not a number");
  }
}
