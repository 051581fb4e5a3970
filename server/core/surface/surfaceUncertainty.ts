/**
 * Uncertainty of what is read off a fitted surface, propagated from the covariance of its parameters (JCGM 100:2008, 5.1).
 *
 * in: surface and a place, or any quantity computed from its shape -> out: variance, in the square of its unit.
 */
import { parameterNames, type SurfaceShape, writeHeightGradient } from "./idealSurface.ts";
import type { UnwornSurface } from "./unwornSurface.ts";

/** Variance of the surface's height at a place, mm². */
export function heightVariance(surface: UnwornSurface, xMm: number, yMm: number): number {
  const gradient = new Float64Array(parameterNames.length);
  writeHeightGradient(surface.plan, surface.shape, xMm, yMm, gradient);
  return quadraticForm(surface.covariance, gradient);
}

/** Variance of any quantity computed from the shape, its gradient found by central differences (JCGM 100:2008, 5.1). */
export function varianceOf(surface: UnwornSurface, quantity: (shape: SurfaceShape) => number): number {
  const size = parameterNames.length;
  const gradient = new Float64Array(size);
  parameterNames.forEach((name, i) => {
    const spread = Math.sqrt(surface.covariance[i * size + i]);
    if (spread === 0) return;
    const centre = surface.shape[name];
    const up = quantity({ ...surface.shape, [name]: centre + spread / 2 });
    const down = quantity({ ...surface.shape, [name]: centre - spread / 2 });
    gradient[i] = (up - down) / spread;
  });
  return quadraticForm(surface.covariance, gradient);
}

function quadraticForm(matrix: Float64Array, vector: Float64Array): number {
  const size = vector.length;
  let sum = 0;
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j < size; j += 1) sum += vector[i] * matrix[i * size + j] * vector[j];
  }
  return Math.max(0, sum);
}
