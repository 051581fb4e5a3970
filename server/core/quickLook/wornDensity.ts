/**
 * How likely a reading is to stand where it does, if it lies on the unworn surface, and if it is worn or a slip.
 *
 * On the surface a reading is normal scatter about what the others foretell. Worn, it lies below by a depth that falls off exponentially
 * (mean 0.12 mm); a slip is anywhere within 4 mm. Of a bench's readings 12 in 100 are worn and 1 in 100 is a slip (from memory).
 *
 * in: what is known, a reading's derivatives and residual (mm), the variance of the noise -> out: logarithm of a density, per mm.
 */
import { foretold, type NormalKnowledge } from "../maths/normalKnowledge.ts";
import { normalCdf } from "../maths/quantiles.ts";

const wornShare = 0.12;
const meanWearMm = 0.12;
const slipShare = 0.01;
const slipRangeMm = 4;

export const logOfUnwornShare = Math.log(1 - wornShare - slipShare);

/** A reading that lies on the surface. */
export function logDensity(
  knowledge: NormalKnowledge,
  row: Float64Array,
  residualMm: number,
  noiseVariance: number,
): number {
  const { value, variance } = foretold(knowledge, row);
  const total = variance + noiseVariance;
  return -0.5 * (Math.log(2 * Math.PI * total) + (residualMm - value) ** 2 / total);
}

/**
 * A reading that is worn or a slip, with the share of such: its depth below the surface is normal scatter plus wear that falls off
 * exponentially, so that the density of a depth d is exp(s²/2μ² − d/μ)·Φ(d/s − s/μ)/μ.
 */
export function logWornDensity(
  knowledge: NormalKnowledge,
  row: Float64Array,
  residualMm: number,
  noiseVariance: number,
): number {
  const { value, variance } = foretold(knowledge, row);
  const depthMm = value - residualMm;
  const spread = Math.sqrt(variance + noiseVariance);
  const exponent = spread ** 2 / (2 * meanWearMm ** 2) - depthMm / meanWearMm;
  const below = normalCdf(depthMm / spread - spread / meanWearMm);
  // Far above the surface Φ runs to nothing faster than the exponential grows.
  const wear = below < 1e-300 ? 0 : Math.exp(exponent + Math.log(below)) / meanWearMm;
  return Math.log(wornShare * wear + slipShare / slipRangeMm);
}
