/**
 * The unworn surface: the ideal shape the board had before it was worn, found from readings of the worn one.
 *
 *   1. ordinary least squares, which sinks into the wear but is never far off
 *   2. an expectile: readings below count a tenth of those above, which lifts the surface to the upper readings
 *   3. a mixture of noise and one-sided wear that hangs together (wearMixture.ts), until the surface stands still
 *
 * each by Gauss–Newton (mixtureFit.ts, surfaceStep.ts), and the whole again with the tip compensated on the slopes of the surface found
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
import type { CompensatedReadings } from "../compensation/compensatedReadings.ts";
import { compensateTip } from "../compensation/tip.ts";
import type { Readings } from "../readings/readings.ts";
import { type SurfacePlan, type SurfaceShape, slopes, surfacePlan } from "./idealSurface.ts";
import { whyNoBoard } from "./isBoard.ts";
import { largestChangeMm, likeliestFit, refit, type SurfaceProblem } from "./mixtureFit.ts";

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

/** The noise is never taken to be finer than this, mm: exact artificial readings would divide by nothing. */
const leastNoiseMm = 1e-6;
const mostTipRounds = 6;
/** The tip's compensation stands still when the surface does within this, mm. */
const stillTipMm = 1e-4;

export function fitUnwornSurface(readings: Readings, instrument: Instrument, gauge: Gauge): FittedSurface {
  const plan = surfacePlan(instrument);
  const compensatedOn = (shape: SurfaceShape): CompensatedReadings =>
    compensateTip(readings, gauge.tipRadiusMm, (xMm, yMm) => slopes(plan, shape, xMm, yMm));
  const problem: SurfaceProblem = {
    plan,
    deepest: instrument.hollowDeepest.value,
    meanWidthMm: (instrument.widthNutMm.value + instrument.widthEndMm.value) / 2,
    floorMm: Math.max(leastNoiseMm, gauge.resolutionMm / Math.sqrt(12)),
  };
  const start = startingShape(readings, instrument);
  let compensated = compensatedOn(start);
  let fit = likeliestFit(start, compensated.readings, problem);
  for (let round = 0; round < mostTipRounds && gauge.tipRadiusMm > 0 && fit.outcome === "fitted"; round += 1) {
    const before = fit.shape;
    compensated = compensatedOn(before);
    fit = refit(fit, compensated.readings, problem);
    if (fit.outcome === "fitted" && largestChangeMm(plan, before, fit.shape, compensated.readings) < stillTipMm) break;
  }
  if (fit.outcome === "not-fitted") return fit;
  const { shape, scales, unworn, unscaledCovariance } = fit;
  const covariance = unscaledCovariance.map((entry) => entry * scales.noiseMm ** 2);
  const unwornShare = unworn.filter((p) => p > 0.5).length / unworn.length;
  const whyNot = whyNoBoard(plan, shape, unwornShare);
  if (whyNot) return { outcome: "not-fitted", why: whyNot };
  return {
    outcome: "fitted",
    compensated,
    surface: { plan, shape, noiseMm: scales.noiseMm, unwornShare, covariance },
  };
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
