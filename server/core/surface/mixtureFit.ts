/**
 * The fit of the mixture: from ordinary least squares by way of expectiles to the likelier of two standing surfaces.
 *
 * in: compensated readings, a starting shape -> out: shape, noise and wear scales, each reading's probability of being unworn, and
 * the unscaled covariance of the parameters; or "not-fitted" with what it may be. Lengths in mm.
 */
import type { CompensatedReading } from "../compensation/compensatedReadings.ts";
import { median } from "../maths/quantiles.ts";
import { heightMm, parameterNames, type SurfacePlan, type SurfaceShape } from "./idealSurface.ts";
import { neighbourhood, shareOfNeighbours } from "./neighbours.ts";
import { type SurfaceStep, surfaceStep } from "./surfaceStep.ts";
import { type Scales, wearMixture } from "./wearMixture.ts";

/** What a fit is about, whatever the readings. */
export type SurfaceProblem = {
  readonly plan: SurfacePlan;
  readonly deepest: number;
  readonly meanWidthMm: number;
  /** The noise is not taken to be less than this, mm. */
  readonly floorMm: number;
};

export type NotFitted = { readonly outcome: "not-fitted"; readonly why: string };

/** Where the mixture stands: a shape, the scales of noise and wear, and how likely each reading is unworn. */
type Standing = {
  readonly outcome: "standing";
  readonly shape: SurfaceShape;
  readonly scales: Scales;
  readonly unworn: Float64Array;
};

export type Fit = Omit<Standing, "outcome"> & {
  readonly outcome: "fitted";
  readonly unscaledCovariance: Float64Array;
  readonly logLikelihood: number;
};

const undetermined: NotFitted = {
  outcome: "not-fitted",
  why: "they lie on too few lines or crosslines, or off the part of the board that a setting speaks of.",
};

/** How far u0 may be off its setting: one standard deviation of the soft constraint. */
const deepestSpread = 0.06;
/** A surface stands still when no reading's height on it moves by more than this share of the noise. */
const stillShare = 1e-2;
const mostRounds = 40;
/** Rounds of ordinary least squares and of the expectile; both problems are convex, so a few are enough. */
const ordinaryRounds = 2;
const expectileRounds = 3;
/** How much readings below the surface count in the expectiles that the mixture is started from. */
const belowShares = [0.1, 0.3];
/** What the mixture starts from: a usual share of unworn readings, and wear ten times as deep as the noise. */
const firstUnwornShare = 0.8;
const firstMeanWear = 10;
/** Noise that the soft constraint on u0 is weighed against before the noise is known, mm. */
const firstNoiseMm = 0.05;

/** The mixture's surface from each start; the likelier one. */
export function likeliestFit(
  start: SurfaceShape,
  readings: readonly CompensatedReading[],
  problem: SurfaceProblem,
): Fit | NotFitted {
  const ordinary = expectile(start, readings, problem, 1, ordinaryRounds);
  if (ordinary === null) return undetermined;
  const fits = belowShares.map((share) => {
    const raised = expectile(ordinary, readings, problem, share, expectileRounds);
    return raised ? settled(standingOn(raised, readings, problem), readings, problem) : undetermined;
  });
  return fits.reduce((best, fit) => {
    if (fit.outcome === "not-fitted") return best;
    return best.outcome === "not-fitted" || fit.logLikelihood > best.logLikelihood ? fit : best;
  });
}

/** Fit again after the readings have moved under the surface: its noise is at least what they now scatter, where unworn. */
export function refit(fit: Fit, readings: readonly CompensatedReading[], problem: SurfaceProblem): Fit | NotFitted {
  const residuals = residualsMm(readings, problem.plan, fit.shape);
  let squares = 0;
  let counted = 0;
  fit.unworn.forEach((p, i) => {
    squares += p * residuals[i] ** 2;
    counted += p;
  });
  const noiseMm = Math.max(fit.scales.noiseMm, Math.sqrt(squares / counted));
  const standing: Standing = { ...fit, outcome: "standing", scales: { ...fit.scales, noiseMm } };
  return settled(standing, readings, problem);
}

/** Least squares in which readings below the surface count `belowShare` of those above; 1 is ordinary least squares. */
function expectile(
  start: SurfaceShape,
  readings: readonly CompensatedReading[],
  problem: SurfaceProblem,
  belowShare: number,
  rounds: number,
): SurfaceShape | null {
  let shape = start;
  for (let round = 0; round < rounds; round += 1) {
    const residuals = residualsMm(readings, problem.plan, shape);
    const weights = residuals.map((r) => (r > 0 ? 1 : belowShare));
    const step = stepWith(readings, problem, shape, residuals, weights, firstNoiseMm);
    if (step.outcome === "undetermined") return null;
    shape = step.shape;
  }
  return shape;
}

/** Where the mixture starts from a shape: the noise judged from the readings above it. */
function standingOn(shape: SurfaceShape, readings: readonly CompensatedReading[], problem: SurfaceProblem): Standing {
  const above = residualsMm(readings, problem.plan, shape).filter((r) => r > 0);
  const noiseMm = Math.max(problem.floorMm, above.length === 0 ? 0 : median(above) / medianOfHalfNormal);
  return {
    outcome: "standing",
    shape,
    scales: { noiseMm, meanWearMm: firstMeanWear * noiseMm },
    unworn: new Float64Array(readings.length).fill(firstUnwornShare),
  };
}

/** Median of |e| for e normal with standard deviation 1. */
const medianOfHalfNormal = 0.674_489_75;
/** The least weight in a step of a reading that is worn for sure: it must not drop out of the design. */
const leastWeight = 0.01;

/** The mixture, round by round until the surface stands still. */
function settled(from: Standing, readings: readonly CompensatedReading[], problem: SurfaceProblem): Fit | NotFitted {
  const { plan, floorMm } = problem;
  const parameters = plan.ridge ? parameterNames.length : parameterNames.length - 2;
  const around = neighbourhood(readings, plan.lengthMm, problem.meanWidthMm);
  let { shape, scales, unworn } = from;
  for (let round = 0; ; round += 1) {
    const residuals = residualsMm(readings, plan, shape);
    const mixture = wearMixture(residuals, shareOfNeighbours(unworn, around), scales, parameters);
    const weights = mixture.unworn.map((p) => Math.max(p, leastWeight));
    const pulls = mixture.pullMm.map((pull, i) => pull / weights[i]);
    const step = stepWith(readings, problem, shape, pulls, weights, scales.noiseMm);
    if (step.outcome === "undetermined") return undetermined;
    const changeMm = largestChangeMm(plan, shape, step.shape, readings);
    const noiseMm = Math.max(floorMm, mixture.scales.noiseMm);
    const changeOfNoiseMm = Math.abs(noiseMm - scales.noiseMm);
    shape = step.shape;
    scales = { ...mixture.scales, noiseMm };
    unworn = mixture.unworn;
    const isStill = Math.max(changeMm, changeOfNoiseMm) < stillShare * noiseMm;
    if (isStill || round === mostRounds) {
      const { unscaledCovariance } = step;
      const logLikelihood = likelihoodOf(residualsMm(readings, plan, shape), unworn, scales, parameters);
      return { outcome: "fitted", shape, scales, unworn, unscaledCovariance, logLikelihood };
    }
  }
}

/**
 * Log likelihood of a surface, every reading as likely to be unworn as any other: told what its neighbours say, a surface would be
 * judged by what it says of itself.
 */
function likelihoodOf(residuals: Float64Array, unworn: Float64Array, scales: Scales, parameters: number): number {
  const share = unworn.reduce((sum, p) => sum + p, 0) / unworn.length;
  return wearMixture(residuals, new Float64Array(residuals.length).fill(share), scales, parameters).logLikelihood;
}

function stepWith(
  readings: readonly CompensatedReading[],
  { plan, deepest }: SurfaceProblem,
  shape: SurfaceShape,
  residuals: Float64Array,
  weights: Float64Array,
  noiseMm: number,
): SurfaceStep {
  const soft = { setting: deepest, spread: deepestSpread, noiseMm };
  return surfaceStep(readings, plan, shape, residuals, weights, soft);
}

function residualsMm(readings: readonly CompensatedReading[], plan: SurfacePlan, shape: SurfaceShape): Float64Array {
  const residuals = new Float64Array(readings.length);
  readings.forEach(({ xMm, yMm, heightMm: measuredMm }, i) => {
    residuals[i] = measuredMm - heightMm(plan, shape, xMm, yMm);
  });
  return residuals;
}

/** How far the surface moves at the readings, mm. */
export function largestChangeMm(
  plan: SurfacePlan,
  from: SurfaceShape,
  to: SurfaceShape,
  readings: readonly CompensatedReading[],
): number {
  let largest = 0;
  for (const { xMm, yMm } of readings) {
    largest = Math.max(largest, Math.abs(heightMm(plan, to, xMm, yMm) - heightMm(plan, from, xMm, yMm)));
  }
  return largest;
}
