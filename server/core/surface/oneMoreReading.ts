/**
 * What readings not yet taken would add to what is known of a surface.
 *
 * With covariance C of the parameters, noise s of a reading, and a the derivatives of the height at a place, one more reading
 * there leaves
 *
 *   C' = C - C·a·aᵀ·C / (s² + aᵀ·C·a)
 *
 * so that the variance of a quantity with derivatives g falls by (gᵀ·C·a)² / (s² + aᵀ·C·a) (the update of linear least squares by
 * one equation). What the reading would say does not matter: only where it is taken. Lengths in mm, variances in the square of the
 * quantity's unit.
 */
import type { Place } from "../units.ts";
import type { Form } from "./form.ts";
import type { SurfaceShape } from "./idealSurface.ts";
import { gradientOf, heightGradient } from "./surfaceUncertainty.ts";
import type { UnwornSurface } from "./unwornSurface.ts";

/** A place read once more, and the variance of the quantity asked for that is left then. */
export type Narrowing<P extends Place> = { readonly place: P; readonly variance: number };

/**
 * The readings that narrow a quantity fastest: the best place of all, then the best one after that has been read, and so on, as
 * many as are asked for; a place may come again. Empty where there are no places.
 */
export function readingsThatNarrow<P extends Place>(
  surface: UnwornSurface,
  quantity: (shape: SurfaceShape, form: Form) => number,
  places: readonly P[],
  count: number,
): readonly Narrowing<P>[] {
  const asked = gradientOf(surface, quantity);
  const heights = places.map((place) => heightGradient(surface, place.xMm, place.yMm));
  const noiseVariance = surface.noiseMm ** 2;
  let covariance = surface.covariance;
  let variance = bilinear(covariance, asked, asked);
  const taken: Narrowing<P>[] = [];
  while (taken.length < count && places.length > 0) {
    const reductions = heights.map(
      (height) =>
        bilinear(covariance, asked, height) ** 2 / (noiseVariance + Math.max(0, bilinear(covariance, height, height))),
    );
    const best = reductions.reduce((most, reduction, i) => (reduction > reductions[most] ? i : most), 0);
    variance = Math.max(0, variance - reductions[best]);
    covariance = withReading(covariance, heights[best], noiseVariance);
    taken.push({ place: places[best], variance });
  }
  return taken;
}

function withReading(covariance: Float64Array, height: Float64Array, noiseVariance: number): Float64Array {
  const size = height.length;
  const reach = Float64Array.from(height, (_, i) => {
    let sum = 0;
    for (let j = 0; j < size; j += 1) sum += covariance[i * size + j] * height[j];
    return sum;
  });
  const own = height.reduce((sum, entry, i) => sum + entry * reach[i], 0);
  const after = Float64Array.from(covariance);
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j < size; j += 1) after[i * size + j] -= (reach[i] * reach[j]) / (noiseVariance + own);
  }
  return after;
}

function bilinear(matrix: Float64Array, left: Float64Array, right: Float64Array): number {
  const size = left.length;
  let sum = 0;
  for (let i = 0; i < size; i += 1) {
    if (left[i] === 0) continue;
    for (let j = 0; j < size; j += 1) sum += left[i] * matrix[i * size + j] * right[j];
  }
  return sum;
}
