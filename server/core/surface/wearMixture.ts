/**
 * Which readings lie on the unworn surface: a mixture of noise and one-sided wear, likelier worn where its neighbours are.
 *
 *   unworn   r = e                 e normal, standard deviation s (the noise)
 *   worn     r = e − w             w exponential with mean m: wear only takes wood away
 *   stray    r anything            a hump, a slip of the pen: it must not pull the surface up
 *
 * r is the residual, reading less surface, mm. Wear hangs together, so a reading's probability of being unworn starts from
 * that of its neighbours, weighted by distance in the pattern of the readings (eleven crosslines by seven lines to the
 * board's length and width make neighbours equally far both ways).
 *
 * Expectation–maximisation: given the surface, the probabilities and the two scales; given these, a Gauss–Newton step whose
 * pull on each reading is the derivative of its log density (times −s²): p·r for the unworn part, and for the worn part
 * s·φ(t)/Φ(t) − s²/m with t = −r/s − s/m, which only holds the surface from sinking below the reading.
 *
 * Source of the method: A. P. Dempster, N. M. Laird, D. B. Rubin, J. R. Statist. Soc. B 39 (1977) 1–38; the worn density is the
 * exponentially modified Gaussian (both from memory).
 */
import { normalCdf } from "../maths/quantiles.ts";

export type Scales = { readonly noiseMm: number; readonly meanWearMm: number };

export type Mixture = {
  /** Probability that each reading is unworn. */
  readonly unworn: Float64Array;
  /** What pulls the surface at each reading, mm; divided by `unworn` it is the residual of a weighted step. */
  readonly pullMm: Float64Array;
  /**
   * What each reading tells of the surface, as a share of what an unworn one tells: minus s² times the second derivative of its log
   * density. Less than its probability of being unworn where the two are hard to tell apart (T. A. Louis, J. R. Statist. Soc. B 44
   * (1982) 226-233, from memory), and never taken to be less than nothing.
   */
  readonly information: Float64Array;
  /** The scales that the probabilities call for. */
  readonly scales: Scales;
  /** Log likelihood of the residuals: of two surfaces the likelier one has the higher. */
  readonly logLikelihood: number;
};

/**
 * Mean wear is never taken to be less than this many times the noise: it could not be told from it. Less of it lets a surface float on
 * unworn boards, more of it sinks into wear that fades out; found best on seeded boards.
 */
const leastMeanWear = 2;
/** `prior`: probability of being unworn before the reading itself is looked at. `parameters`: how many the surface has. */
export function wearMixture(residuals: Float64Array, prior: Float64Array, scales: Scales, parameters: number): Mixture {
  const { noiseMm, meanWearMm } = scales;
  const count = residuals.length;
  const unworn = new Float64Array(count);
  const pullMm = new Float64Array(count);
  const information = new Float64Array(count);
  let squares = 0;
  let unwornCount = 0;
  let wear = 0;
  let wornCount = 0;
  let logLikelihood = 0;
  for (let i = 0; i < count; i += 1) {
    const r = residuals[i];
    const asNoise = (prior[i] * Math.exp(-0.5 * (r / noiseMm) ** 2) * densityAtZero) / noiseMm;
    const t = -r / noiseMm - noiseMm / meanWearMm;
    const asWear = (Math.exp(wornExponent(r, scales)) * normalCdf(t) * (1 - prior[i])) / meanWearMm;
    const all = asNoise + asWear + strayDensity;
    const p = asNoise / all;
    const q = asWear / all;
    unworn[i] = p;
    logLikelihood += Math.log(all);
    const hazard = lowerHazard(t);
    const wornPullMm = noiseMm * hazard - noiseMm ** 2 / meanWearMm;
    pullMm[i] = p * r + q * wornPullMm;
    const doubt = (p * r * r + q * wornPullMm ** 2 - pullMm[i] ** 2) / noiseMm ** 2;
    information[i] = Math.max(0, p + q * hazard * (hazard + t) - doubt);
    squares += p * r * r;
    unwornCount += p;
    wear += q * Math.max(0, -r);
    wornCount += q;
  }
  const freedom = Math.max(1, unwornCount - parameters);
  const nextNoiseMm = Math.sqrt(squares / freedom);
  const nextWearMm = wornCount > 0.5 ? wear / wornCount : meanWearMm;
  return {
    unworn,
    pullMm,
    information,
    logLikelihood,
    scales: { noiseMm: nextNoiseMm, meanWearMm: Math.max(nextWearMm, leastMeanWear * nextNoiseMm) },
  };
}

/** Density of stray readings per mm: one in two hundred, anywhere within a millimetre. It outweighs the noise from about four s on. */
const strayDensity = 0.005;

const densityAtZero = 1 / Math.sqrt(2 * Math.PI);

/** Exponent of the worn density, kept from overflowing for readings far above the surface. */
function wornExponent(r: number, { noiseMm, meanWearMm }: Scales): number {
  return Math.min(r / meanWearMm + 0.5 * (noiseMm / meanWearMm) ** 2, 700);
}

/** φ(t)/Φ(t); for t far below zero by its asymptote −t. */
function lowerHazard(t: number): number {
  if (t < -8) return -t;
  return (densityAtZero * Math.exp(-0.5 * t * t)) / normalCdf(t);
}
