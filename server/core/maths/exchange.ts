/**
 * Exchange: from a corner to the optimum of a linear programme, one constraint in and one out at a time.
 *
 * in   a scaled programme and a corner whose multipliers are ≥ 0: the best point as far as its n constraints are concerned
 * out  the corner that violates nothing, which is the optimum; or "infeasible"
 *
 * The most violated constraint comes in, the one whose multiplier first falls to zero goes out: the dual simplex method, seen
 * from the side of the few variables. A step costs one pass over the rows; the corner is computed afresh each time, so that
 * rounding does not pile up. Where the objective stands still for long, the first violated constraint comes in and the first
 * of several goes out, which can't go round in a circle.
 *
 * Source: V. Chvátal, Linear Programming (1983), chs. 8 and 10; R. G. Bland, Math. Oper. Res. 2 (1977) 103–107 (from memory).
 */
import { type Corner, cornerOf, smallestMultiplier } from "./corner.ts";
import { directionOf, isPlaceholder, limitOf, type ScaledProgramme } from "./scaledProgramme.ts";

/** A constraint is violated beyond this share of the corner's size: the rounding of a corner, with room. */
const slack = 1e-11;
/**
 * A violation up to this share of the point itself that no exchange can mend is rounding, not infeasibility: just under what its
 * certificate lets pass.
 */
const unmendableSlack = 0.9e-9;
/** A share of a direction below this is rounding: directions are scaled to 1. */
const smallestPivot = 1e-10;
const mostSteps = 20_000;

/** Throws an Error where rounding has the last word: no corner, or no end. */
export function exchange(programme: ScaledProgramme, start: Corner): Corner | "infeasible" {
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

/** `share`: of the largest coordinate of the corner; Infinity where it grows without end. */
type Violated = { readonly constraint: number; readonly share: number };

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
  const ofPoint = near.reduce((most, value) => Math.max(most, Math.abs(value)), 0) || 1;
  return { constraint: worst, share: worstNear / ofPoint };
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
