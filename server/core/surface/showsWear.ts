/**
 * Whether readings give reason to believe in wear at all, beside the surface that fits them all best.
 *
 * Either the fit with wear is much likelier than the one without; or a reading, or several side by side in their mean, lie farther
 * below the surface without wear than chance makes of so many once in two hundred boards. Without such reason a board is taken to be
 * unworn: a surface that may float above its readings where they happen to lie low would find faint wear on every tenth.
 *
 * A weighted mean kᵀr of the residuals of a least-squares surface has the variance s²·(kᵀk − gᵀCg), g = Σ kᵢ·gradientᵢ, C the unscaled
 * covariance: the surface has already given way to the readings, and they scatter about it by less than s.
 *
 * in: both fits and their readings -> out: whether to believe in the wear. Lengths in mm.
 */
import { nearby } from "../maths/nearby.ts";
import { quadraticForm } from "../maths/quadraticForm.ts";
import { tQuantile } from "../maths/quantiles.ts";
import type { FitReadings } from "./fitReadings.ts";
import { parameterNames } from "./idealSurface.ts";
import type { Fit, SurfaceProblem } from "./mixtureFit.ts";
import { residualsMm, rowWriter } from "./surfaceStep.ts";
import { wavesSettled } from "./waveSpread.ts";

/** By how much the evidence for wear must be greater: e⁵ is 150 to 1. */
const leastGain = 5;
const byChance = 0.005;
/** Workmanship leads no farther below the ideal shape than this, mm. */
const deepestWaveMm = 0.05;

export function showsWear(worn: Fit, unworn: Fit, readings: FitReadings, problem: SurfaceProblem): boolean {
  if (evidence(worn, readings) > evidence(unworn, readings) + leastGain) return true;
  return lowest(unworn, noiseOf(worn, unworn), readings, problem) > bar(readings);
}

/** Log likelihood less what the waves are worth: half the log of the number of readings for each (G. Schwarz, Ann. Statist. 6 (1978) 461-464, from memory). */
function evidence(fit: Fit, { count }: FitReadings): number {
  return fit.logLikelihood - 0.5 * wavesSettled(fit) * Math.log(count);
}

/** The noise, known no better than its degrees of freedom allow, hence Student's t. */
function bar({ count }: FitReadings): number {
  return tQuantile(1 - byChance / count, Math.max(count - parameterNames.length, 1));
}

/** Where wear is believed in, its first victims are the lowest readings of mere noise, and the noise comes out too small. */
function noiseOf(worn: Fit, unworn: Fit): number {
  const wornMm = worn.scales.noiseMm;
  return Math.min(Math.max(wornMm, 0.92 * unworn.scales.noiseMm), 1.2 * wornMm);
}

/** Whether a reading lies so low that no wave of workmanship could make up for it. */
export function isSurelyWorn(worn: Fit, unworn: Fit, readings: FitReadings, { plan }: SurfaceProblem): boolean {
  const surelyMm = deepestWaveMm + bar(readings) * noiseOf(worn, unworn);
  return residualsMm(readings, plan, unworn.placed).some((r) => r < -surelyMm);
}

/** How far the lowest reading, or the lowest mean of several, lies below the surface, in units of its standard deviation. */
function lowest(
  { placed, unscaledCovariance }: Fit,
  noiseMm: number,
  readings: FitReadings,
  { plan, spacing }: SurfaceProblem,
): number {
  const { alongMm, acrossMm } = spacing(readings.count);
  const residuals = residualsMm(readings, plan, placed);
  const near = nearby(
    readings.xMm.map((x) => x / alongMm),
    readings.yMm.map((y) => y / acrossMm),
  );
  const columns = Math.sqrt(unscaledCovariance.length);
  const writeRow = rowWriter(readings, plan, placed);
  const row = new Float64Array(columns);
  const standardised = (weighted: ReturnType<typeof near>): number => {
    const answers = new Float64Array(columns);
    let sum = 0;
    let squares = 0;
    for (const { index, weight } of weighted) {
      sum += weight * residuals[index];
      squares += weight * weight;
      writeRow(index, row);
      for (let j = 0; j < columns; j += 1) answers[j] += weight * row[j];
    }
    const left = squares - quadraticForm(unscaledCovariance, answers);
    return left > leastLeft * squares ? -sum / (noiseMm * Math.sqrt(left)) : 0;
  };
  let most = 0;
  for (let i = 0; i < readings.count; i += 1) {
    most = Math.max(most, standardised([{ index: i, weight: 1 }]), standardised(near(i)));
  }
  return most;
}

/** Readings that the surface follows wherever they lie say nothing: less than this share of their variance is left. */
const leastLeft = 0.1;
