/**
 * The fit of the mixture: from ordinary least squares by way of expectiles to the likelier of two standing surfaces, or to the
 * surface of a board without wear where the readings give no reason to believe in any.
 *
 * in: readings as the fit takes them, a starting shape -> out: where the surface stands, noise and wear scales, each reading's
 * probability of being unworn, and the unscaled covariance of the unknowns; or null where the readings don't determine them.
 * Lengths in mm.
 */
import { median } from "../maths/quantiles.ts";
import type { FitReadings } from "./fitReadings.ts";
import { noForm } from "./form.ts";
import { parameterNames, type SurfacePlan, type SurfaceShape } from "./idealSurface.ts";
import { neighbourhood, shareOfNeighbours } from "./neighbours.ts";
import { type Known, type Placed, residualsMm, surfaceStep } from "./surfaceStep.ts";
import { type Mixture, type Scales, wearMixture } from "./wearMixture.ts";

/** What a fit is about, whatever the readings. */
export type SurfaceProblem = {
  readonly plan: SurfacePlan;
  readonly known: Known;
  readonly meanWidthMm: number;
  /** How far apart so many readings lie in the usual pattern. */
  readonly spacing: (readings: number) => { readonly alongMm: number; readonly acrossMm: number };
  /** The noise is not taken to be less than this, mm. */
  readonly floorMm: number;
};

/**
 * Where a fit stands: a surface, the scales of noise and wear, and how likely each reading is unworn. `isWorn` false: the board is taken to
 * have no wear at all, and every reading counts in full.
 */
export type Standing = {
  readonly placed: Placed;
  readonly scales: Scales;
  readonly unworn: Float64Array;
  readonly isWorn: boolean;
};

export type Fit = Standing & { readonly unscaledCovariance: Float64Array; readonly logLikelihood: number };

/** A surface stands still when no reading's height on it moves by more than this share of the noise. */
const stillShare = 1e-2;
const mostRounds = 40;
/** A step that moves the surface by less than this many times the noise is straight enough. */
const mostBendChange = 3;
const mostBendRounds = 6;
/** Rounds of ordinary least squares and of the expectile; both problems are convex, so a few are enough. */
const ordinaryRounds = 2;
const expectileRounds = 3;
/** How much readings below the surface count in the expectiles that the mixture is started from. */
const belowShares = [0.1, 0.3];
/** What the mixture starts from: a usual share of unworn readings, and wear ten times as deep as the noise. */
const firstUnwornShare = 0.8;
const firstMeanWear = 10;
/** What is thought of a reading on a board without wear: it may still be a slip. */
const unwornPrior = 0.99;
/** A surface that runs through fewer of the readings than this has run away from them, unless it is the likelier one all the same. */
const leastUnwornMean = 0.25;
/** Noise that what is known beforehand is weighed against before the noise is known, mm. */
const firstNoiseMm = 0.05;

/** Ordinary least squares, which sinks into the wear but is never far off; null where the readings don't determine it. */
export function ordinaryFit(start: SurfaceShape, readings: FitReadings, problem: SurfaceProblem): Placed | null {
  const placed = { shape: start, form: noForm, setUpUnknowns: new Float64Array(readings.setUps.unknowns) };
  return expectile(placed, readings, problem, 1, ordinaryRounds);
}

/** The likeliest surface of a worn board, and that of a board without wear. */
export type Rivals = { readonly worn: Fit | null; readonly unworn: Fit };

/** The mixture's surface from each start, the likelier one; and the surface of a board without wear. */
export function rivalFits(ordinary: Placed, readings: FitReadings, problem: SurfaceProblem): Rivals | null {
  const unworn = settled({ ...standingOn(ordinary, readings, problem), isWorn: false }, readings, problem);
  if (unworn === null) return null;
  const fits = belowShares.flatMap((share) => {
    const raised = expectile(ordinary, readings, problem, share, expectileRounds);
    const fit = raised && settled(standingOn(raised, readings, problem), readings, problem);
    return fit && !isAstray(fit, unworn) ? [fit] : [];
  });
  const worn = fits.reduce<Fit | null>(
    (best, fit) => (best === null || fit.logLikelihood > best.logLikelihood ? fit : best),
    null,
  );
  return { worn, unworn };
}

/**
 * Where little ties the readings together, a surface may run away from nearly all of them and still stand: less likely than that of a
 * board without wear, and without a word to say of what the readings tell.
 */
function isAstray(fit: Fit, unworn: Fit): boolean {
  return meanOf(fit.unworn) < leastUnwornMean && fit.logLikelihood < unworn.logLikelihood;
}

/** Fit again after the readings have moved under the surface: its noise is at least what they now scatter, where unworn. */
export function refit(standing: Standing, readings: FitReadings, problem: SurfaceProblem): Fit | null {
  const residuals = residualsMm(readings, problem.plan, standing.placed);
  let squares = 0;
  let counted = 0;
  standing.unworn.forEach((p, i) => {
    squares += p * residuals[i] ** 2;
    counted += p;
  });
  const noiseMm = Math.max(standing.scales.noiseMm, Math.sqrt(squares / counted));
  return settled({ ...standing, scales: { ...standing.scales, noiseMm } }, readings, problem);
}

/** Least squares in which readings below the surface count `belowShare` of those above; 1 is ordinary least squares. */
function expectile(
  start: Placed,
  readings: FitReadings,
  problem: SurfaceProblem,
  belowShare: number,
  rounds: number,
): Placed | null {
  let placed = start;
  for (let round = 0; round < rounds; round += 1) {
    const residuals = residualsMm(readings, problem.plan, placed);
    const weights = residuals.map((r) => (r > 0 ? 1 : belowShare));
    const step = surfaceStep(readings, problem.plan, problem.known, placed, residuals, weights, firstNoiseMm);
    if (step.outcome === "undetermined") return null;
    placed = step.placed;
  }
  return placed;
}

/** Where the mixture starts from a surface: the noise judged from the readings above it. */
function standingOn(placed: Placed, readings: FitReadings, problem: SurfaceProblem): Standing {
  const above = residualsMm(readings, problem.plan, placed).filter((r) => r > 0);
  const noiseMm = Math.max(problem.floorMm, above.length === 0 ? 0 : median(above) / medianOfHalfNormal);
  return {
    placed,
    scales: { noiseMm, meanWearMm: firstMeanWear * noiseMm },
    unworn: new Float64Array(readings.count).fill(firstUnwornShare),
    isWorn: true,
  };
}

/** Median of |e| for e normal with standard deviation 1. */
const medianOfHalfNormal = 0.674_489_75;
/** The least weight in a step of a reading that is worn for sure: it must not drop out of the design. */
const leastWeight = 0.01;

/** The mixture, round by round until the surface stands still. */
function settled(from: Standing, readings: FitReadings, problem: SurfaceProblem): Fit | null {
  const { plan, floorMm } = problem;
  const around = neighbourhood(readings, plan.lengthMm, problem.meanWidthMm);
  const { isWorn } = from;
  let { placed, scales, unworn } = from;
  let unknowns = unknownsOf(problem, placed);
  let residuals = residualsMm(readings, plan, placed);
  for (let round = 0; ; round += 1) {
    const mixture = isWorn
      ? wearMixture(residuals, shareOfNeighbours(unworn, around), scales, unknowns)
      : withoutWear(residuals, unknowns);
    const weights = mixture.unworn.map((p) => Math.max(p, leastWeight));
    const pulls = mixture.pullMm.map((pull, i) => pull / weights[i]);
    const step = pulledTo(pulls, { placed, residuals }, weights, scales.noiseMm, readings, problem);
    if (step === null) return null;
    const next = step.residuals;
    const changeMm = largestDifference(next, residuals);
    const noiseMm = Math.max(floorMm, mixture.scales.noiseMm);
    const changeOfNoiseMm = Math.abs(noiseMm - scales.noiseMm);
    ({ placed } = step);
    residuals = next;
    scales = { ...mixture.scales, noiseMm };
    unworn = mixture.unworn;
    unknowns = unknownsOf(problem, placed) - heldOfForm(problem, placed, step.unscaledCovariance, noiseMm);
    const isStill = Math.max(changeMm, changeOfNoiseMm) < stillShare * noiseMm;
    if (isStill || round === mostRounds) {
      const known = surfaceStep(readings, plan, problem.known, placed, residuals, mixture.information, noiseMm);
      if (known.outcome === "undetermined") return null;
      const { unscaledCovariance } = known;
      const logLikelihood = likelihoodOf(residuals, isWorn ? meanOf(unworn) : unwornPrior, scales, unknowns);
      return { placed, scales, unworn, isWorn, unscaledCovariance, logLikelihood };
    }
  }
}

/** Every reading unworn: what the mixture is on a board without wear. */
function withoutWear(residuals: Float64Array, unknowns: number): Omit<Mixture, "logLikelihood"> {
  const ones = new Float64Array(residuals.length).fill(1);
  const squares = residuals.reduce((sum, r) => sum + r * r, 0);
  const noiseMm = Math.sqrt(squares / Math.max(1, residuals.length - unknowns));
  return {
    unworn: ones,
    pullMm: residuals,
    information: ones,
    scales: { noiseMm, meanWearMm: firstMeanWear * noiseMm },
  };
}

type Pulled = { readonly placed: Placed; readonly residuals: Float64Array; readonly unscaledCovariance: Float64Array };

/**
 * The surface that weighted pulls (mm, at each reading) bring it to. One step does it where the surface moves by no more than a few
 * times the noise; where it moves farther the step is repeated with what is left of the pulls, since the surface bends with its unknowns.
 */
function pulledTo(
  pulls: Float64Array,
  from: { readonly placed: Placed; readonly residuals: Float64Array },
  weights: Float64Array,
  noiseMm: number,
  readings: FitReadings,
  problem: SurfaceProblem,
): Pulled | null {
  let { placed, residuals } = from;
  for (let round = 1; ; round += 1) {
    const left = pulls.map((pull, i) => pull + residuals[i] - from.residuals[i]);
    const step = surfaceStep(readings, problem.plan, problem.known, placed, left, weights, noiseMm);
    if (step.outcome === "undetermined") return null;
    const next = residualsMm(readings, problem.plan, step.placed);
    const changeMm = largestDifference(next, residuals);
    ({ placed } = step);
    residuals = next;
    if (changeMm < mostBendChange * noiseMm || round === mostBendRounds) {
      return { placed, residuals, unscaledCovariance: step.unscaledCovariance };
    }
  }
}

function unknownsOf({ plan }: SurfaceProblem, placed: Placed): number {
  return parameterNames.length - (plan.ridge ? 0 : 2) + placed.setUpUnknowns.length + placed.form.length;
}

/** As much of the form's coefficients as their spread settles, and not the readings: these don't count as unknowns. */
function heldOfForm(
  { known }: SurfaceProblem,
  placed: Placed,
  unscaledCovariance: Float64Array,
  noiseMm: number,
): number {
  const first = parameterNames.length + placed.setUpUnknowns.length;
  const columns = first + placed.form.length;
  return placed.form.reduce((sum, _, j) => {
    const variance = unscaledCovariance[(first + j) * (columns + 1)] * noiseMm ** 2;
    return sum + variance / known.formSpreadMm ** 2;
  }, 0);
}

/**
 * Log likelihood of a surface, every reading as likely to be unworn as any other: told what its neighbours say, a surface would be
 * judged by what it says of itself.
 */
function likelihoodOf(residuals: Float64Array, unwornShare: number, scales: Scales, parameters: number): number {
  const prior = new Float64Array(residuals.length).fill(unwornShare);
  return wearMixture(residuals, prior, scales, parameters).logLikelihood;
}

function meanOf(numbers: Float64Array): number {
  return numbers.reduce((sum, number) => sum + number, 0) / numbers.length;
}

function largestDifference(one: Float64Array, other: Float64Array): number {
  let largest = 0;
  for (let i = 0; i < one.length; i += 1) largest = Math.max(largest, Math.abs(one[i] - other[i]));
  return largest;
}
