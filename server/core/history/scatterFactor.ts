/**
 * How many standard uncertainties hold the true value about 95 of 100 times, when readings also show how far they scatter.
 *
 * The uncertainties of the readings are known beforehand. Where the readings agree as well as those say, or too few are there to
 * scatter at all, 1.96 of them. Where they scatter more (χ² over its degrees of freedom is above 1; its root is the Birge ratio),
 * the uncertainties are enlarged; but three visits can scatter by chance as well as for cause, so what was known beforehand counts as
 * two degrees of freedom beside those seen: s² = (2 + χ²) / (2 + ν), with Student's t of 2 + ν. Never less than 1.96.
 *
 * Sources: R. T. Birge, Physical Review 40 (1932) 207 (the ratio; from memory); O. Bodnar, C. Elster, Metrologia 51 (2014) 516 (for
 * few readings the ratio alone is too small a factor: t takes its place); JCGM 100:2008, G.4.2 (two degrees of freedom: an uncertainty
 * known to within a half). Two is a choice: with 1 to 6 degrees of freedom the interval holds 96–97 % where the uncertainties are right
 * and 85–93 % where they are half of what they should be; the plain ratio with t holds 88–95 % there, at three times the width
 * with three visits.
 */
import { normalQuantile, tQuantile } from "../maths/quantiles.ts";

const knownBeforehand = 2;
const share = 0.975;

/** Root of χ² over its degrees of freedom; 1 where there are none. */
export function birgeRatio(chiSquared: number, degreesOfFreedom: number): number {
  return degreesOfFreedom === 0 ? 1 : Math.sqrt(chiSquared / degreesOfFreedom);
}

export function scatterFactor(chiSquared: number, degreesOfFreedom: number): number {
  const known = normalQuantile(share);
  if (birgeRatio(chiSquared, degreesOfFreedom) <= 1) return known;
  const together = knownBeforehand + degreesOfFreedom;
  const scatter = Math.sqrt((knownBeforehand + chiSquared) / together);
  return Math.max(known, tQuantile(share, together) * scatter);
}
