/**
 * A corner: the point where n constraints of a linear programme in n variables touch, with its multipliers.
 *
 * in   a scaled programme and the numbers of n constraints
 * out  the point, as near + far·infinity, and the multipliers that write −c as a combination of the touching directions
 *
 * A bound infinitely far off is carried as a second number beside each value, never as some very large one. Where the objective
 * does not push against it, a placeholder x_j = 0 stands in its stead until a row comes that needs the place.
 */
import { directionOf, isPlaceholder, limitOf, placeholderOf, type ScaledProgramme } from "./scaledProgramme.ts";
import { squareInverse } from "./squareInverse.ts";

/** A multiplier below this is rounding: the objective is scaled to 1. */
export const smallestMultiplier = 1e-12;

/** The corner near + far·infinity where n constraints touch; multipliers in the order of `touching`. */
export type Corner = {
  readonly touching: readonly number[];
  /** Inverse of the matrix whose rows are the touching constraints' directions, row by row. */
  readonly inverse: Float64Array;
  readonly near: Float64Array;
  readonly far: Float64Array;
  /** Rounding below zero is taken for zero. */
  readonly multipliers: Float64Array;
  readonly rawMultipliers: Float64Array;
};

/** Every variable on the bound that the objective pushes it to, be it infinitely far; on the lower one where it does not push. */
export function firstCorner(programme: ScaledProgramme): Corner {
  const { m, n, objective } = programme;
  const touching = Array.from(objective, (cost, j) => (cost >= 0 ? m + n + j : m + j));
  return cornerOf(programme, touching)!;
}

/** The corner of an earlier answer, where its multipliers are still ≥ 0 in this programme. */
export function suitableCorner(programme: ScaledProgramme, touching: readonly number[]): Corner | undefined {
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
export function cornerOf(programme: ScaledProgramme, touching: readonly number[]): Corner | null {
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
  refine(programme, touching, inverse, near);
  const multipliers = rawMultipliers.map((multiplier) => (multiplier > smallestMultiplier ? multiplier : 0));
  return { touching, inverse, near, far, multipliers, rawMultipliers };
}

/** What rounding left between the point and its constraints, taken out once more: touching rows may be all but parallel. */
function refine(
  programme: ScaledProgramme,
  touching: readonly number[],
  inverse: Float64Array,
  near: Float64Array,
): void {
  const { n } = programme;
  const left = touching.map((constraint) => {
    const limit = limitOf(programme, constraint);
    if (limit === Infinity) return 0;
    const direction = directionOf(programme, constraint);
    let reached = 0;
    for (let j = 0; j < n; j++) reached += direction[j]! * near[j]!;
    return limit - reached;
  });
  for (let j = 0; j < n; j++) {
    for (let k = 0; k < n; k++) near[j] = near[j]! + inverse[j * n + k]! * left[k]!;
  }
}
