/**
 * The unworn surface: the ideal shape the board had before it was worn, found from readings of the worn one.
 *
 * Ordinary least squares sinks into the wear, so it only gives the start. Then Gauss–Newton is repeated with one-sided
 * weights (wearWeights.ts), the noise being judged from the readings above the surface, until the shape stands still.
 * Between rounds the tip is compensated on the slopes of the current surface (tip.ts).
 *
 * Where the hollow is deepest can hardly be told on a slightly hollow board: u0 is held to its setting by a soft
 * constraint of ±0.06 (one standard deviation), which the readings of a normal board outweigh.
 *
 * in: checked readings, instrument, gauge -> out: compensated readings and the surface with its covariance (mm²).
 */

import type { Instrument } from "../board/instrument.ts";
import type { Gauge } from "../board/settings.ts";
import type { CompensatedReadings } from "../compensation/compensatedReadings.ts";
import { compensateTip } from "../compensation/tip.ts";
import { solveLeastSquares } from "../maths/leastSquares.ts";
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
import { oneSidedWeight, recentre } from "./wearWeights.ts";

export type UnwornSurface = {
  readonly plan: SurfacePlan;
  readonly shape: SurfaceShape;
  /** Standard deviation of the readings about the surface where unworn, mm. */
  readonly noiseMm: number;
  /** Weight of each reading in the fit, 0 (worn) to 1. */
  readonly weights: Float64Array;
  readonly unwornShare: number;
  /** Variances and covariances of the parameters, row-major in the order of parameterNames. */
  readonly covariance: Float64Array;
};

export type FittedSurface =
  | { readonly outcome: "fitted"; readonly surface: UnwornSurface; readonly compensated: CompensatedReadings }
  | { readonly outcome: "not-fitted"; readonly why: string };

/** Soft constraint on u0: one standard deviation, as a fraction of the length. */
const deepestSpread = 0.06;
/** The noise is never taken to be finer than this, mm: exact artificial readings would divide by nothing. */
const leastNoiseMm = 1e-6;

export function fitUnwornSurface(readings: Readings, instrument: Instrument, gauge: Gauge): FittedSurface {
  const plan = surfacePlan(instrument);
  let shape = startingShape(readings, instrument);
  let compensated = compensateTip(readings, gauge.tipRadiusMm, (xMm, yMm) => slopes(plan, shape, xMm, yMm));
  let noiseMm = Number.POSITIVE_INFINITY;
  const free = freeParameters(plan);
  const floorMm = Math.max(leastNoiseMm, gauge.resolutionMm / Math.sqrt(12));

  for (let round = 0; round < 60; round += 1) {
    const residuals = residualsMm(compensated, plan, shape);
    const isStart = round < 3;
    if (!isStart) noiseMm = Math.max(floorMm, noiseAboveMm(residuals, free.length));
    const weights = isStart ? residuals.map(() => 1) : residuals.map((r) => oneSidedWeight(r / noiseMm));
    const shiftMm = isStart ? 0 : recentre * noiseMm;
    const step = gaussNewtonStep(
      compensated,
      plan,
      shape,
      free,
      weights,
      residuals.map((r) => r - shiftMm),
      {
        noiseMm: isStart ? 0.1 : noiseMm,
        deepest: instrument.hollowDeepest.value,
      },
    );
    if (step.outcome === "undetermined") return { outcome: "not-fitted", why: step.why };
    const next = moved(shape, step.changes);
    const changeMm = largestChangeMm(compensated, plan, shape, next);
    shape = next;
    compensated = compensateTip(readings, gauge.tipRadiusMm, (xMm, yMm) => slopes(plan, shape, xMm, yMm));
    if (!isStart && changeMm < 1e-4 * noiseMm) break;
  }
  return finished(compensated, plan, shape, free, floorMm, instrument);
}

/** Variance of the surface's height at a place, mm². */
export function heightVariance(surface: UnwornSurface, xMm: number, yMm: number): number {
  const gradient = new Float64Array(parameterNames.length);
  writeHeightGradient(surface.plan, surface.shape, xMm, yMm, gradient);
  return quadraticForm(surface.covariance, gradient);
}

/** Variance of any quantity computed from the shape, by its gradient found with central differences (JCGM 100:2008, 5.1). */
export function varianceOf(surface: UnwornSurface, quantity: (shape: SurfaceShape) => number): number {
  const size = parameterNames.length;
  const gradient = new Float64Array(size);
  parameterNames.forEach((name, i) => {
    const spread = Math.sqrt(surface.covariance[i * size + i]);
    if (spread === 0) return;
    const at = (value: number) => quantity({ ...surface.shape, [name]: value });
    const centre = surface.shape[name];
    gradient[i] = (at(centre + spread / 2) - at(centre - spread / 2)) / spread;
  });
  return quadraticForm(surface.covariance, gradient);
}

/** The target's camber and hollow, laid through the readings' mean height. */
function startingShape(readings: Readings, instrument: Instrument): SurfaceShape {
  const heights = readings.readings.map((reading) => reading.gaugeMm);
  return {
    heightMm: heights.reduce((sum, z) => sum + z, 0) / heights.length,
    pitch: 0,
    crownNutMm: 0,
    crownEndMm: 0,
    radiusNutMm: instrument.radiusNutMm.value,
    radiusMiddleMm: instrument.radiusMiddleMm.value,
    radiusEndMm: instrument.radiusEndMm.value,
    hollowLowestMm: instrument.hollowLowestMm.value,
    hollowHighestMm: instrument.hollowHighestMm.value,
    hollowDeepest: instrument.hollowDeepest.value,
    facetSlopeNut: 0,
    facetSlopeEnd: 0,
  };
}

/** Indices of the parameters that are fitted: all, or all but the facet's slopes. */
function freeParameters(plan: SurfacePlan): readonly number[] {
  const all = parameterNames.map((_, i) => i);
  return plan.ridge ? all : all.slice(0, parameterNames.indexOf("facetSlopeNut"));
}

function residualsMm(compensated: CompensatedReadings, plan: SurfacePlan, shape: SurfaceShape): Float64Array {
  return Float64Array.from(compensated.readings, (r) => r.heightMm - heightMm(plan, shape, r.xMm, r.yMm));
}

/** Noise judged from the upper side, where there is no wear: median of the positive residuals over that of a half normal. */
function noiseAboveMm(residuals: Float64Array, parameters: number): number {
  const above = Array.from(residuals).filter((r) => r > 0);
  if (above.length === 0) return 0;
  const spentFreedom = Math.sqrt(residuals.length / Math.max(1, residuals.length - parameters));
  return (median(above) / 0.674_489_75) * spentFreedom;
}

type Constraint = { readonly noiseMm: number; readonly deepest: number };
type Step =
  | { readonly outcome: "solved"; readonly changes: Float64Array; readonly unscaledCovariance: Float64Array }
  | { readonly outcome: "undetermined"; readonly why: string };

/** One weighted least-squares step; the last row of the design is the soft constraint on u0. */
function gaussNewtonStep(
  compensated: CompensatedReadings,
  plan: SurfacePlan,
  shape: SurfaceShape,
  free: readonly number[],
  weights: Float64Array,
  residuals: Float64Array,
  constraint: Constraint,
): Step {
  const count = residuals.length;
  const columns = free.length;
  const entries = new Float64Array((count + 1) * columns);
  const gradient = new Float64Array(parameterNames.length);
  compensated.readings.forEach((reading, i) => {
    writeHeightGradient(plan, shape, reading.xMm, reading.yMm, gradient);
    for (let j = 0; j < columns; j += 1) entries[i * columns + j] = gradient[free[j]];
  });
  const deepest = parameterNames.indexOf("hollowDeepest");
  entries[count * columns + deepest] = 1;
  const observed = new Float64Array(count + 1);
  observed.set(residuals);
  observed[count] = constraint.deepest - shape.hollowDeepest;
  const allWeights = new Float64Array(count + 1);
  allWeights.set(weights);
  allWeights[count] = (constraint.noiseMm / deepestSpread) ** 2;
  const solved = solveLeastSquares({ rows: count + 1, columns, entries }, observed, allWeights);
  if (solved.outcome === "undetermined") return solved;
  const changes = new Float64Array(parameterNames.length);
  free.forEach((parameter, j) => {
    changes[parameter] = solved.coefficients[j];
  });
  return { outcome: "solved", changes, unscaledCovariance: solved.unscaledCovariance };
}

/** The shape after a step; radii and u0 are kept where the formulas hold. */
function moved(shape: SurfaceShape, changes: Float64Array): SurfaceShape {
  const raw = Object.fromEntries(parameterNames.map((name, i) => [name, shape[name] + changes[i]])) as SurfaceShape;
  const radius = (before: number, after: number): number => Math.min(Math.max(after, before * 0.6), before * 1.7);
  return {
    ...raw,
    radiusNutMm: radius(shape.radiusNutMm, raw.radiusNutMm),
    radiusMiddleMm: radius(shape.radiusMiddleMm, raw.radiusMiddleMm),
    radiusEndMm: radius(shape.radiusEndMm, raw.radiusEndMm),
    hollowDeepest: Math.min(Math.max(raw.hollowDeepest, 0.3), 0.7),
  };
}

function largestChangeMm(compensated: CompensatedReadings, plan: SurfacePlan, from: SurfaceShape, to: SurfaceShape) {
  let largest = 0;
  for (const { xMm, yMm } of compensated.readings) {
    largest = Math.max(largest, Math.abs(heightMm(plan, to, xMm, yMm) - heightMm(plan, from, xMm, yMm)));
  }
  return largest;
}

/** The standing shape with its noise and covariance: weights of the last round, noise from the readings that count. */
function finished(
  compensated: CompensatedReadings,
  plan: SurfacePlan,
  shape: SurfaceShape,
  free: readonly number[],
  floorMm: number,
  instrument: Instrument,
): FittedSurface {
  const residuals = residualsMm(compensated, plan, shape);
  const noiseMm = Math.max(floorMm, noiseAboveMm(residuals, free.length));
  const weights = residuals.map((r) => oneSidedWeight(r / noiseMm));
  const step = gaussNewtonStep(compensated, plan, shape, free, weights, residuals, {
    noiseMm,
    deepest: instrument.hollowDeepest.value,
  });
  if (step.outcome === "undetermined") return { outcome: "not-fitted", why: step.why };
  const size = parameterNames.length;
  const covariance = new Float64Array(size * size);
  free.forEach((a, i) => {
    free.forEach((b, j) => {
      covariance[a * size + b] = noiseMm ** 2 * step.unscaledCovariance[i * free.length + j];
    });
  });
  const unworn = weights.filter((w) => w > 0.5).length;
  return {
    outcome: "fitted",
    compensated,
    surface: { plan, shape, noiseMm, weights, unwornShare: unworn / weights.length, covariance },
  };
}

function quadraticForm(matrix: Float64Array, vector: Float64Array): number {
  const size = vector.length;
  let sum = 0;
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j < size; j += 1) sum += vector[i] * matrix[i * size + j] * vector[j];
  }
  return Math.max(0, sum);
}
