/**
 * The unworn surface: the ideal shape the board had before it was worn, found from readings of the worn one.
 *
 *   1. ordinary least squares, which sinks into the wear but is never far off
 *   2. an expectile: readings below count a tenth of those above, which lifts the surface to the upper readings
 *   3. a mixture of noise and one-sided wear that hangs together (wearMixture.ts), until the surface stands still
 *
 * each by Gauss–Newton (surfaceStep.ts), and the whole again with the tip compensated on the slopes of the surface found
 * (tip.ts), until that changes nothing. The mixture may have more than one place to stand still: it is started from two
 * expectiles, and the likelier surface is kept.
 *
 * Where the hollow is deepest can hardly be told on a slightly hollow board: u0 is held to its setting by a soft
 * constraint of ±0.06 (one standard deviation), which the readings of a normal board outweigh.
 *
 * in: checked readings, instrument, gauge -> out: compensated readings and the surface with its covariance. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Gauge } from "../board/settings.ts";
import type { CompensatedReading, CompensatedReadings } from "../compensation/compensatedReadings.ts";
import { compensateTip } from "../compensation/tip.ts";
import { median } from "../maths/quantiles.ts";
import type { Readings } from "../readings/readings.ts";
import {
  heightMm,
  parameterNames,
  type SurfacePlan,
  type SurfaceShape,
  slopes,
  surfacePlan,
  writeHeightGradient,
} from "./idealSurface.ts";
import { neighbourhood, shareOfNeighbours } from "./neighbours.ts";
import { type SurfaceStep, surfaceStep } from "./surfaceStep.ts";
import { type Scales, wearMixture } from "./wearMixture.ts";

export type UnwornSurface = {
  readonly plan: SurfacePlan;
  readonly shape: SurfaceShape;
  /** Standard deviation of the readings about the surface where unworn, mm. */
  readonly noiseMm: number;
  /** Share of the readings that lie on it. */
  readonly unwornShare: number;
  /** Variances and covariances of the parameters, row-major in the order of parameterNames. */
  readonly covariance: Float64Array;
};

export type FittedSurface =
  | { readonly outcome: "fitted"; readonly surface: UnwornSurface; readonly compensated: CompensatedReadings }
  | { readonly outcome: "not-fitted"; readonly why: string };

const deepestSpread = 0.06;
/** The noise is never taken to be finer than this, mm: exact artificial readings would divide by nothing. */
const leastNoiseMm = 1e-6;
/** A surface stands still when no reading's height on it moves by more than this share of the noise. */
const stillShare = 1e-2;
const mostRounds = 40;
const mostTipRounds = 6;
/** The tip's compensation stands still when the surface does within this, mm. */
const stillTipMm = 1e-4;

export function fitUnwornSurface(readings: Readings, instrument: Instrument, gauge: Gauge): FittedSurface {
  const plan = surfacePlan(instrument);
  const compensatedOn = (shape: SurfaceShape): CompensatedReadings =>
    compensateTip(readings, gauge.tipRadiusMm, (xMm, yMm) => slopes(plan, shape, xMm, yMm));
  const problem = {
    plan,
    deepest: instrument.hollowDeepest.value,
    meanWidthMm: (instrument.widthNutMm.value + instrument.widthEndMm.value) / 2,
    floorMm: Math.max(leastNoiseMm, gauge.resolutionMm / Math.sqrt(12)),
  };
  const start = startingShape(readings, instrument);
  let compensated = compensatedOn(start);
  let fit = likeliest(start, compensated.readings, problem);
  for (let round = 0; round < mostTipRounds && gauge.tipRadiusMm > 0 && fit.outcome === "fitted"; round += 1) {
    const before = fit.shape;
    compensated = compensatedOn(before);
    fit = settled(unsettled(fit, compensated.readings, problem), compensated.readings, problem);
    if (fit.outcome === "fitted" && largestChangeMm(plan, before, fit.shape, compensated.readings) < stillTipMm) break;
  }
  if (fit.outcome === "not-fitted") return fit;
  const { shape, scales, unworn, unscaledCovariance } = fit;
  const covariance = unscaledCovariance.map((entry) => entry * scales.noiseMm ** 2);
  const unwornShare = unworn.filter((p) => p > 0.5).length / unworn.length;
  const nonsense = whyNonsense(plan, shape, unwornShare);
  if (nonsense) return { outcome: "not-fitted", why: nonsense };
  return {
    outcome: "fitted",
    compensated,
    surface: { plan, shape, noiseMm: scales.noiseMm, unwornShare, covariance },
  };
}

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

type Problem = {
  readonly plan: SurfacePlan;
  readonly deepest: number;
  readonly meanWidthMm: number;
  /** The noise is not taken to be less than this, mm. */
  readonly floorMm: number;
};

type NotFitted = { readonly outcome: "not-fitted"; readonly why: string };

/** Where the mixture stands: a shape, the scales of noise and wear, and how likely each reading is unworn. */
type Standing = {
  readonly outcome: "standing";
  readonly shape: SurfaceShape;
  readonly scales: Scales;
  readonly unworn: Float64Array;
};

type Fit = Omit<Standing, "outcome"> & {
  readonly outcome: "fitted";
  readonly unscaledCovariance: Float64Array;
  readonly logLikelihood: number;
};

const undetermined: NotFitted = {
  outcome: "not-fitted",
  why: "they lie on too few lines or crosslines, or off the part of the board that a setting speaks of.",
};

/** Rounds of ordinary least squares and of the expectile; both problems are convex, so a few are enough. */
const ordinaryRounds = 3;
const expectileRounds = 5;
/** How much readings below the surface count in the expectiles that the mixture is started from. */
const belowShares = [0.1, 0.3];
/** What the mixture starts from: a usual share of unworn readings, and wear ten times as deep as the noise. */
const firstUnwornShare = 0.8;
const firstMeanWear = 10;
/** Noise that the soft constraint on u0 is weighed against before the noise is known, mm. */
const firstNoiseMm = 0.05;

/** The mixture's surface from each start; the likelier one. */
function likeliest(start: SurfaceShape, readings: readonly CompensatedReading[], problem: Problem): Fit | NotFitted {
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

/** Least squares in which readings below the surface count `belowShare` of those above; 1 is ordinary least squares. */
function expectile(
  start: SurfaceShape,
  readings: readonly CompensatedReading[],
  problem: Problem,
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
function standingOn(shape: SurfaceShape, readings: readonly CompensatedReading[], problem: Problem): Standing {
  const above = residualsMm(readings, problem.plan, shape).filter((r) => r > 0);
  const noiseMm = Math.max(problem.floorMm, above.length === 0 ? 0 : median(above) / medianOfHalfNormal);
  return {
    outcome: "standing",
    shape,
    scales: { noiseMm, meanWearMm: firstMeanWear * noiseMm },
    unworn: new Float64Array(readings.length).fill(firstUnwornShare),
  };
}

/** A fit whose readings have moved under it: its noise is at least what they now scatter, where unworn. */
function unsettled(fit: Fit, readings: readonly CompensatedReading[], problem: Problem): Standing {
  const residuals = residualsMm(readings, problem.plan, fit.shape);
  let squares = 0;
  let counted = 0;
  fit.unworn.forEach((p, i) => {
    squares += p * residuals[i] ** 2;
    counted += p;
  });
  const noiseMm = Math.max(fit.scales.noiseMm, Math.sqrt(squares / counted));
  return { outcome: "standing", shape: fit.shape, scales: { ...fit.scales, noiseMm }, unworn: fit.unworn };
}

/** Median of |e| for e normal with standard deviation 1. */
const medianOfHalfNormal = 0.674_489_75;
/** The least weight in a step of a reading that is worn for sure: it must not drop out of the design. */
const leastWeight = 0.01;

/** The mixture, round by round until the surface stands still. */
function settled(from: Standing, readings: readonly CompensatedReading[], problem: Problem): Fit | NotFitted {
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
  { plan, deepest }: Problem,
  shape: SurfaceShape,
  residuals: Float64Array,
  weights: Float64Array,
  noiseMm: number,
): SurfaceStep {
  const soft = { setting: deepest, spread: deepestSpread, noiseMm };
  return surfaceStep(readings, plan, shape, residuals, weights, soft);
}

/** Radii that a fingerboard can have, mm; beyond, the readings are of something else, or their sign or unit is wrong. */
const possibleRadiusMm = [12, 1000] as const;
/** With fewer readings than this on it, a surface is none. */
const leastUnwornShare = 0.25;

/** Why a surface that fits best is still not a board's, in words; null where it may be one. */
function whyNonsense(plan: SurfacePlan, shape: SurfaceShape, unwornShare: number): string | null {
  const radii = [shape.radiusNutMm, shape.radiusMiddleMm, shape.radiusEndMm];
  const [smallest, largest] = possibleRadiusMm;
  if (radii.some((radius) => !(radius >= smallest && radius <= largest))) {
    return "they don't show a board that is arched across; is the sign right (`reads`), and the unit?";
  }
  if (Math.abs(shape.pitch) * plan.lengthMm > plan.lengthMm / 4) {
    return "they climb or fall too steeply along the board; is the unit right?";
  }
  if (unwornShare < leastUnwornShare) {
    return "hardly any of them lie on one arched and hollow surface; are they all of one set-up, and the lines in the right order?";
  }
  return null;
}

/** A round arc and a slight hollow, laid through the readings' mean height: the same whatever the workshop aims at. */
function startingShape(readings: Readings, instrument: Instrument): SurfaceShape {
  const radiusMm = instrument.widthEndMm.value;
  const sum = readings.readings.reduce((total, reading) => total + reading.gaugeMm, 0);
  return {
    heightMm: sum / readings.readings.length,
    pitch: 0,
    crownNutMm: 0,
    crownEndMm: 0,
    radiusNutMm: radiusMm,
    radiusMiddleMm: radiusMm,
    radiusEndMm: radiusMm,
    hollowLowestMm: 0,
    hollowHighestMm: 0,
    hollowDeepest: instrument.hollowDeepest.value,
    facetSlopeNut: 0,
    facetSlopeEnd: 0,
  };
}

function residualsMm(readings: readonly CompensatedReading[], plan: SurfacePlan, shape: SurfaceShape): Float64Array {
  const residuals = new Float64Array(readings.length);
  readings.forEach(({ xMm, yMm, heightMm: measuredMm }, i) => {
    residuals[i] = measuredMm - heightMm(plan, shape, xMm, yMm);
  });
  return residuals;
}

function largestChangeMm(
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

function quadraticForm(matrix: Float64Array, vector: Float64Array): number {
  const size = vector.length;
  let sum = 0;
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j < size; j += 1) sum += vector[i] * matrix[i * size + j] * vector[j];
  }
  return Math.max(0, sum);
}
