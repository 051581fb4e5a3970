/**
 * Uncertainty of what is read off a fitted surface, propagated from the covariance of its parameters (JCGM 100:2008, 5.1).
 *
 * in: surface and a place, or any quantity computed from its shape and form -> out: variance, in the square of its unit.
 */
import { quadraticForm } from "../maths/quadraticForm.ts";
import { type Form, writeFormModes } from "./form.ts";
import { parameterNames, type SurfaceShape, writeHeightGradient } from "./idealSurface.ts";
import { writeSetUp } from "./setUps.ts";
import type { UnwornSurface } from "./unwornSurface.ts";

/** Derivatives of the surface's height at a place by its parameters and its form's coefficients, in the covariance's order. */
export function heightGradient({ plan, shape, form }: UnwornSurface, xMm: number, yMm: number): Float64Array {
  const gradient = new Float64Array(parameterNames.length + form.length);
  writeHeightGradient(plan, shape, xMm, yMm, gradient);
  if (form.length > 0) writeFormModes(plan, xMm, yMm, gradient, parameterNames.length);
  return gradient;
}

/** Variance of the surface's height at a place, mm². */
export function heightVariance(surface: UnwornSurface, xMm: number, yMm: number): number {
  return quadraticForm(surface.covariance, heightGradient(surface, xMm, yMm));
}

/**
 * Variance of the height that a reading is compared with, mm²: the surface's, and with it what its set-up was brought up or down by. The
 * two go together: where nothing ties the set-ups to each other, the surface is uncertain by what a set-up makes up for.
 */
export function comparedVariance(surface: UnwornSurface, place: { xMm: number; yMm: number; setup: number }): number {
  const { plan, shape, form, joined } = surface;
  if (joined === null) return heightVariance(surface, place.xMm, place.yMm);
  const { setUps, covariance } = joined;
  const row = new Float64Array(parameterNames.length + setUps.unknowns + form.length);
  writeHeightGradient(plan, shape, place.xMm, place.yMm, row);
  writeSetUp(setUps, place.setup, place.xMm, place.yMm, row, parameterNames.length);
  if (form.length > 0) writeFormModes(plan, place.xMm, place.yMm, row, parameterNames.length + setUps.unknowns);
  return quadraticForm(covariance, row);
}

/** Variance of any quantity computed from shape and form, its gradient found by central differences (JCGM 100:2008, 5.1). */
export function varianceOf(surface: UnwornSurface, quantity: (shape: SurfaceShape, form: Form) => number): number {
  return quadraticForm(surface.covariance, gradientOf(surface, quantity));
}

/** How a quantity answers to each parameter of the shape and coefficient of the form, in the covariance's order. */
export function gradientOf(
  surface: UnwornSurface,
  quantity: (shape: SurfaceShape, form: Form) => number,
): Float64Array {
  const { shape, form, covariance } = surface;
  const size = parameterNames.length + form.length;
  const spreadOf = (i: number): number => Math.sqrt(covariance[i * size + i]);
  const byShape = parameterNames.map((name, i) => {
    const spread = spreadOf(i);
    if (spread === 0) return 0;
    const up = quantity({ ...shape, [name]: shape[name] + spread / 2 }, form);
    const down = quantity({ ...shape, [name]: shape[name] - spread / 2 }, form);
    return (up - down) / spread;
  });
  const byForm = Array.from(form, (coefficient, i) => {
    const spread = spreadOf(parameterNames.length + i);
    if (spread === 0) return 0;
    const up = quantity(shape, form.with(i, coefficient + spread / 2));
    const down = quantity(shape, form.with(i, coefficient - spread / 2));
    return (up - down) / spread;
  });
  return Float64Array.from([...byShape, ...byForm]);
}
