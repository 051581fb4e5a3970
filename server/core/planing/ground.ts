/**
 * The ground: the present places of a task as flat arrays, so that a target is tried against a hundred thousand of them in a
 * millisecond or two.
 *
 * in: places -> out: arrays in the order given; and the cuts of a target at all of them. Lengths in mm, cuts positive downwards.
 */
import { heightMm, type SurfacePlan, type SurfaceShape } from "../surface/idealSurface.ts";

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

export type Ground = {
  readonly count: number;
  readonly xMm: Float64Array;
  readonly yMm: Float64Array;
  readonly presentMm: Float64Array;
  /** Infinity where the cut does not count. */
  readonly spareMm: Float64Array;
  /** Infinity without a cap. */
  readonly capMm: Float64Array;
  /** Which patch of the board each place lies in, 0 … patches − 1. */
  readonly patch: Uint8Array;
};

const patchesAlong = 10;
const patchesAcross = 4;
export const patches = patchesAlong * patchesAcross;

export function groundOf(places: readonly CutPlace[]): Ground {
  const count = places.length;
  const ground = {
    count,
    xMm: new Float64Array(count),
    yMm: new Float64Array(count),
    presentMm: new Float64Array(count),
    spareMm: new Float64Array(count),
    capMm: new Float64Array(count),
    patch: new Uint8Array(count),
  };
  places.forEach((place, i) => {
    ground.xMm[i] = place.xMm;
    ground.yMm[i] = place.yMm;
    ground.presentMm[i] = place.presentMm;
    ground.spareMm[i] = place.spareMm ?? Number.POSITIVE_INFINITY;
    ground.capMm[i] = place.capMm ?? Number.POSITIVE_INFINITY;
  });
  const along = stripsOver(ground.xMm, patchesAlong);
  const across = stripsOver(ground.yMm, patchesAcross);
  for (let i = 0; i < count; i += 1) {
    ground.patch[i] = along(ground.xMm[i]) * patchesAcross + across(ground.yMm[i]);
  }
  return ground;
}

/** Which of so many even strips a coordinate falls in. */
function stripsOver(coordinatesMm: Float64Array, strips: number): (mm: number) => number {
  let from = Number.POSITIVE_INFINITY;
  let to = Number.NEGATIVE_INFINITY;
  for (const mm of coordinatesMm) {
    from = Math.min(from, mm);
    to = Math.max(to, mm);
  }
  const perMm = to > from ? strips / (to - from) : 0;
  return (mm) => Math.min(strips - 1, Math.floor((mm - from) * perMm));
}

/** Cut of a target at every place. */
export function cutsOn(ground: Ground, plan: SurfacePlan, shape: SurfaceShape): Float64Array {
  const { count, xMm, yMm, presentMm } = ground;
  const cutsMm = new Float64Array(count);
  for (let i = 0; i < count; i += 1) cutsMm[i] = presentMm[i] - heightMm(plan, shape, xMm[i], yMm[i]);
  return cutsMm;
}

/** max(cut − spare) over the places that count; −Infinity where none does. */
export function deepestOver({ spareMm }: Ground, cutsMm: Float64Array): number {
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < cutsMm.length; i += 1) most = Math.max(most, cutsMm[i] - spareMm[i]);
  return most;
}

/** How far a target must be let down so that every cut reaches the allowance; 0 where all do. */
export function shortfallMm(cutsMm: Float64Array, allowanceMm: number): number {
  let most = 0;
  for (let i = 0; i < cutsMm.length; i += 1) most = Math.max(most, allowanceMm - cutsMm[i]);
  return most;
}
