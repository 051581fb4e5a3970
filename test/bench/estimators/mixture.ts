/**
 * A mixture of noise and one-sided wear, by expectation–maximisation: unworn readings scatter normally about the surface, worn
 * ones lie below it by an exponential depth and scatter too.
 *
 * `priors` says how likely each reading is unworn before it is looked at: that is where the estimators differ. The pull of a
 * worn reading is the derivative of its log density, which keeps the surface from sinking below it.
 *
 * Source of the method: A. P. Dempster, N. M. Laird, D. B. Rubin, J. R. Statist. Soc. B 39 (1977) 1–38 (from memory).
 */
import { normalCdf } from "../../../server/core/maths/quantiles.ts";
import type { SurfaceShape } from "../../../server/core/surface/idealSurface.ts";
import { residualsMm, type Task } from "./estimator.ts";
import { raised, upperNoiseMm, weightedStep } from "./gaussNewton.ts";

/** From the probabilities of the last round those before the reading itself is looked at. */
export type Priors = (unworn: Float64Array) => Float64Array;

const rounds = 40;
const strayDensity = 0.005;
const leastWeight = 0.01;

/** Wear's mean depth is never taken to be less than this many times the noise: how shallow wear may be before it counts as noise. */
export const usualLeastWear = 8;

export function mixtureFit(task: Task, priors: Priors, leastMeanWear = usualLeastWear): SurfaceShape | null {
  let shape = raised(task);
  if (shape === null) return null;
  let noiseMm = upperNoiseMm(residualsMm(task, shape), task.floorMm);
  let meanWearMm = 10 * noiseMm;
  let unworn: Float64Array = new Float64Array(task.spots.length).fill(0.8);
  for (let round = 0; round < rounds && shape !== null; round++) {
    const residuals = residualsMm(task, shape);
    const before = priors(unworn);
    const seen = residuals.map((r, i) => unwornProbability(r, before[i]!, noiseMm, meanWearMm));
    const worn = residuals.map((r, i) => wornProbability(r, before[i]!, noiseMm, meanWearMm));
    const weights = seen.map((p) => Math.max(p, leastWeight));
    const pulls = residuals.map((r, i) => (seen[i]! * r + worn[i]! * wornPullMm(r, noiseMm, meanWearMm)) / weights[i]!);
    shape = weightedStep(task, shape, pulls, weights, noiseMm);
    unworn = seen;
    const sure = sum(seen);
    const parameters = task.plan.ridge ? 12 : 10;
    const squares = sum(residuals.map((r, i) => seen[i]! * r * r));
    noiseMm = Math.max(task.floorMm, Math.sqrt(squares / Math.max(1, sure - parameters)));
    const wear = sum(residuals.map((r, i) => worn[i]! * Math.max(0, -r)));
    if (sum(worn) > 0.5) meanWearMm = wear / sum(worn);
    meanWearMm = Math.max(meanWearMm, leastMeanWear * noiseMm);
  }
  return shape;
}

function densities(r: number, prior: number, noiseMm: number, meanWearMm: number): { noise: number; wear: number } {
  const noise = (prior * Math.exp(-0.5 * (r / noiseMm) ** 2)) / (noiseMm * Math.sqrt(2 * Math.PI));
  const exponent = Math.min(r / meanWearMm + 0.5 * (noiseMm / meanWearMm) ** 2, 700);
  const wear = ((1 - prior) * Math.exp(exponent) * normalCdf(reach(r, noiseMm, meanWearMm))) / meanWearMm;
  return { noise, wear };
}

function unwornProbability(r: number, prior: number, noiseMm: number, meanWearMm: number): number {
  const { noise, wear } = densities(r, prior, noiseMm, meanWearMm);
  return noise / (noise + wear + strayDensity);
}

function wornProbability(r: number, prior: number, noiseMm: number, meanWearMm: number): number {
  const { noise, wear } = densities(r, prior, noiseMm, meanWearMm);
  return wear / (noise + wear + strayDensity);
}

/** −s² times the derivative of the worn log density by the residual: s·φ(t)/Φ(t) − s²/m. */
function wornPullMm(r: number, noiseMm: number, meanWearMm: number): number {
  const t = reach(r, noiseMm, meanWearMm);
  const hazard = t < -8 ? -t : Math.exp(-0.5 * t * t) / Math.sqrt(2 * Math.PI) / normalCdf(t);
  return noiseMm * hazard - noiseMm ** 2 / meanWearMm;
}

function reach(r: number, noiseMm: number, meanWearMm: number): number {
  return -r / noiseMm - noiseMm / meanWearMm;
}

function sum(numbers: Float64Array): number {
  return numbers.reduce((total, one) => total + one, 0);
}
