/**
 * Median and quantiles of a sample, and of the normal and t distributions.
 *
 * Samples in any unit, answers in the same. The distributions are good to full double precision: the normal table of a small
 * statistics library, four digits, is too coarse for coverage factors.
 */
import normalCdfOf from "@stdlib/stats-base-dists-normal-cdf";
import normalQuantileOf from "@stdlib/stats-base-dists-normal-quantile";
import tQuantileOf from "@stdlib/stats-base-dists-t-quantile";
import { median as medianOf, quantile as quantileOf } from "simple-statistics";

/** Middle value; mean of the two middle ones of an even number. Throws a RangeError for an empty sample. */
export function median(sample: ArrayLike<number>): number {
  return medianOf(sampleOf(sample));
}

/** The value below which the share `probability` (0 to 1) of the sample lies; Throws a RangeError outside, or for an empty sample. */
export function quantile(sample: ArrayLike<number>, probability: number): number {
  if (!(probability >= 0 && probability <= 1)) throw new RangeError(`quantile: no probability: ${probability}`);
  return quantileOf(sampleOf(sample), probability);
}

/** Probability that a standard normal quantity lies below z: normalCdf(1.96) = 0.975. */
export function normalCdf(z: number): number {
  return normalCdfOf(z, 0, 1);
}

/** The z below which a standard normal quantity lies with this probability: normalQuantile(0.975) = 1.96. */
export function normalQuantile(probability: number): number {
  return normalQuantileOf(probability, 0, 1);
}

/** The t below which Student's t lies with this probability, `degreesOfFreedom` > 0: tQuantile(0.975, 10) = 2.23. */
export function tQuantile(probability: number, degreesOfFreedom: number): number {
  return tQuantileOf(probability, degreesOfFreedom);
}

function sampleOf(sample: ArrayLike<number>): number[] {
  if (sample.length === 0) throw new RangeError("quantile: the sample is empty");
  return Array.from(sample);
}
