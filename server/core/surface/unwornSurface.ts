/**
 * The unworn surface: the ideal shape the board had before it was worn, found from readings of the worn one.
 *
 *   1. ordinary least squares, which sinks into the wear but is never far off
 *   2. an expectile: readings below count a tenth of those above, which lifts the surface to the upper readings
 *   3. a mixture of noise and one-sided wear that hangs together (wearMixture.ts), until the surface stands still
 *   4. long waves of workmanship, where the board shows them (longWaves.ts); and whether there is reason to believe in wear at all
 *
 * each by Gauss–Newton (mixtureFit.ts, surfaceStep.ts), and again with the tip compensated on the slopes of the surface found
 * (tip.ts), until that changes nothing. The mixture may have more than one place to stand still: it is started from two
 * expectiles, and the likelier surface is kept. Of a dense scan some thousands of readings, evenly spread, are taken.
 *
 * What the readings can't tell (softConstraints.ts) is assumed to be as usual, and said. Each set-up of the rail has its own
 * height and pitch along its run, found with the surface (setUps.ts); the compensated readings come out in one frame.
 *
 * in: corrected readings, instrument, gauge -> out: compensated readings and the surface with its covariance. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Gauge } from "../board/settings.ts";
import type { CompensatedReadings } from "../compensation/compensatedReadings.ts";
import { compensateTip, type SlopesAt } from "../compensation/tip.ts";
import type { Readings } from "../readings/readings.ts";
import { type FitReadings, fitReadings, thinned } from "./fitReadings.ts";
import { type Form, formMm } from "./form.ts";
import { heightMm, parameterNames, type SurfacePlan, type SurfaceShape, slopes, surfacePlan } from "./idealSurface.ts";
import { whyNoBoard, whyNotFitted } from "./isBoard.ts";
import { believedFit, withSpread } from "./longWaves.ts";
import { type Fit, ordinaryFit, refit, rivalFits, type SurfaceProblem } from "./mixtureFit.ts";
import { patternSpacing } from "./patternSpacing.ts";
import { type SetUps, setUpMm } from "./setUps.ts";
import { type Respect, softConstraints, untoldRespects } from "./softConstraints.ts";
import { spreadOf } from "./waveSpread.ts";

export type UnwornSurface = {
  readonly plan: SurfacePlan;
  readonly shape: SurfaceShape;
  /** Long waves on it; empty where none show. */
  readonly form: Form;
  /** Standard deviation of the readings about the surface where unworn, mm. */
  readonly noiseMm: number;
  /** Share of the readings that lie on it. */
  readonly unwornShare: number;
  /** Variances and covariances of the parameters in the order of parameterNames, then of the form's coefficients, row-major. */
  readonly covariance: Float64Array;
  /** Where several set-ups had to be brought to one frame: the same with theirs, between the shape's and the form's; else null. */
  readonly joined: { readonly setUps: SetUps; readonly covariance: Float64Array } | null;
  /** Respects of the shape that these readings can't tell, and that are assumed to be as usual. */
  readonly assumed: readonly Respect[];
};

export type FittedSurface =
  | { readonly outcome: "fitted"; readonly surface: UnwornSurface; readonly compensated: CompensatedReadings }
  | { readonly outcome: "not-fitted"; readonly why: string };

/** The noise is never taken to be finer than this, mm: exact artificial readings would divide by nothing. */
const leastNoiseMm = 1e-6;
const mostTipRounds = 6;
/** The tip's compensation stands still when the surface does within this, mm. */
const stillTipMm = 1e-4;
/** So many readings settle a surface to a thousandth of a millimetre; of more, so many are taken. */
const enough = 4000;
/** Hollows known no better than this, mm (standard uncertainty), are not known. */
const mostHollowUncertaintyMm = 0.4;

/** Height of the unworn surface, form and all, mm. */
export function unwornHeightMm({ plan, shape, form }: UnwornSurface, xMm: number, yMm: number): number {
  return heightMm(plan, shape, xMm, yMm) + formMm(plan, form, xMm, yMm);
}

export function fitUnwornSurface(readings: Readings, instrument: Instrument, gauge: Gauge): FittedSurface {
  const plan = surfacePlan(instrument);
  const meanWidthMm = (instrument.widthNutMm.value + instrument.widthEndMm.value) / 2;
  const floorMm = Math.max(leastNoiseMm, gauge.resolutionMm / Math.sqrt(12));
  const assuming = (assumed: ReadonlySet<Respect>): SurfaceProblem => ({
    plan,
    known: { constraints: softConstraints(instrument, plan, assumed), formSpreadMm: 1 },
    meanWidthMm,
    spacing: (count) => patternSpacing(instrument, count),
    floorMm,
  });
  const onSlopesOf =
    (shape: SurfaceShape): SlopesAt =>
    (xMm, yMm) =>
      slopes(plan, shape, xMm, yMm);
  const takenOn = (shape: SurfaceShape): FitReadings =>
    thinned(fitReadings(readings, gauge.tipRadiusMm, onSlopesOf(shape)), enough);

  let assumed: ReadonlySet<Respect> = new Set();
  let problem = assuming(assumed);
  const start = startingShape(readings, instrument);
  const ordinary = ordinaryFit(start, fitReadings(readings, 0, onSlopesOf(start)), problem);
  if (ordinary === null) return notFitted(readings);
  let taken = takenOn(ordinary.shape);
  let rivals = rivalFits(ordinary, taken, problem);
  while (rivals) {
    const found: Fit = rivals.worn ?? rivals.unworn;
    const untold = untoldRespects(instrument, plan, (combination) => uncertaintyOf(found, combination));
    if (untold.every((respect) => assumed.has(respect))) break;
    assumed = new Set([...assumed, ...untold]);
    problem = assuming(assumed);
    rivals = rivalFits(ordinary, taken, problem);
  }
  let fit = rivals && believedFit(rivals, taken, problem);
  if (fit && fit.placed.form.length > 0) problem = withSpread(problem, spreadOf(fit));
  for (let round = 0; round < mostTipRounds && gauge.tipRadiusMm > 0 && fit; round += 1) {
    const before: FitReadings = taken;
    taken = takenOn(fit.placed.shape);
    if (largestRiseMm(before, taken) < stillTipMm) break;
    fit = refit(fit, taken, problem);
  }
  if (fit === null || areHollowsUntold(fit)) return notFitted(readings);

  const { placed, scales, unworn } = fit;
  const unwornShare = unworn.filter((p) => p > 0.5).length / unworn.length;
  const whyNot = whyNoBoard(plan, placed.shape, unwornShare, scales.noiseMm);
  if (whyNot) return { outcome: "not-fitted", why: whyNot };
  const { setUps } = taken;
  const compensated = compensateTip(readings, gauge.tipRadiusMm, onSlopesOf(placed.shape));
  return {
    outcome: "fitted",
    compensated:
      setUps.unknowns === 0
        ? compensated
        : {
            ...compensated,
            readings: compensated.readings.map((reading) => ({
              ...reading,
              heightMm:
                reading.heightMm - setUpMm(setUps, placed.setUpUnknowns, reading.setup, reading.xMm, reading.yMm),
            })),
          },
    surface: {
      plan,
      shape: placed.shape,
      form: placed.form,
      noiseMm: scales.noiseMm,
      unwornShare,
      covariance: covarianceOf(fit),
      joined:
        setUps.unknowns === 0
          ? null
          : { setUps, covariance: fit.unscaledCovariance.map((entry) => entry * scales.noiseMm ** 2) },
      assumed: [...assumed],
    },
  };
}

function notFitted(readings: Readings): FittedSurface {
  return { outcome: "not-fitted", why: whyNotFitted(readings) };
}

/** Covariance of the shape's parameters and the form's coefficients; the set-ups' own unknowns are left out. */
function covarianceOf({ placed, unscaledCovariance, scales }: Fit): Float64Array {
  const columns = Math.sqrt(unscaledCovariance.length);
  const kept = [...Array(columns).keys()].filter(
    (j) => j < parameterNames.length || j >= parameterNames.length + placed.setUpUnknowns.length,
  );
  return Float64Array.from(
    kept.flatMap((i) => kept.map((j) => unscaledCovariance[i * columns + j] * scales.noiseMm ** 2)),
  );
}

/** Standard uncertainty of a combination of the shape's parameters. */
function uncertaintyOf({ unscaledCovariance, scales }: Fit, combination: { readonly [name: string]: number }): number {
  const columns = Math.sqrt(unscaledCovariance.length);
  let variance = 0;
  parameterNames.forEach((one, i) => {
    parameterNames.forEach((other, j) => {
      variance += (combination[one] ?? 0) * (combination[other] ?? 0) * unscaledCovariance[i * columns + j];
    });
  });
  return Math.sqrt(Math.max(0, variance)) * scales.noiseMm;
}

function areHollowsUntold(fit: Fit): boolean {
  return (["hollowLowestMm", "hollowHighestMm"] as const).some(
    (name) => uncertaintyOf(fit, { [name]: 1 }) > mostHollowUncertaintyMm,
  );
}

/** How far the compensated heights moved, mm. */
function largestRiseMm(before: FitReadings, after: FitReadings): number {
  return after.heightMm.reduce((most, height, i) => Math.max(most, Math.abs(height - before.heightMm[i])), 0);
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
