/**
 * How great a fit's long waves are, and how many numbers they are worth. Lengths in mm.
 */
import type { Fit } from "./mixtureFit.ts";

/** Greatest and least standard deviation of a wave's coefficient, mm: workmanship is of a few hundredths. */
export const mostSpreadMm = 0.02;
const leastSpreadMm = 0.002;

/** Spread that the coefficients show: their mean square, what is not known of them included. */
export function spreadOf(fit: Fit): number {
  const squares = variances(fit).reduce((sum, variance, j) => sum + variance + fit.placed.form[j] ** 2, 0);
  return Math.min(Math.max(Math.sqrt(squares / fit.placed.form.length), leastSpreadMm), mostSpreadMm);
}

/** As much of the coefficients as the readings settle, and not their spread; 0 without form. */
export function wavesSettled(fit: Fit): number {
  const spreadMm = spreadOf(fit);
  return variances(fit).reduce((sum, variance) => sum + 1 - variance / spreadMm ** 2, 0);
}

/** Variance of each coefficient, mm². */
function variances({ placed, unscaledCovariance, scales }: Fit): readonly number[] {
  const columns = Math.sqrt(unscaledCovariance.length);
  const first = columns - placed.form.length;
  return Array.from(placed.form, (_, j) => unscaledCovariance[(first + j) * (columns + 1)] * scales.noiseMm ** 2);
}
