/**
 * Asymmetric redescending weights: full weight above the surface, a bisquare below it, the scale from the upper side alone.
 *
 * Source of the bisquare and its constant 4.685: A. E. Beaton, J. W. Tukey, Technometrics 16 (1974) 147–185 (from memory).
 */
import { type Estimator, residualsMm } from "./estimator.ts";
import { raised, upperNoiseMm, weightedStep } from "./gaussNewton.ts";

const cutOff = 4.685;
const rounds = 25;

export const asymmetric: Estimator = (task) => {
  let shape = raised(task);
  for (let round = 0; round < rounds && shape !== null; round++) {
    const residuals = residualsMm(task, shape);
    const noiseMm = upperNoiseMm(residuals, task.floorMm);
    const weights = residuals.map((r) => (r >= 0 ? 1 : Math.max(0, 1 - (r / (cutOff * noiseMm)) ** 2) ** 2));
    shape = weightedStep(task, shape, residuals, weights, noiseMm);
  }
  return shape;
};
