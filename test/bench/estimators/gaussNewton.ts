/**
 * One weighted Gauss–Newton step of a surface, shared by the estimators.
 *
 * In: task, shape, residuals, weights, the noise that a reading of weight 1 carries. Out: the shape after the step; null where
 * undetermined. One more row holds the place of the deepest hollow softly to 0.5 ± 0.06. Lengths in mm.
 */
import { solveLeastSquares } from "../../../server/core/maths/leastSquares.ts";
import { parameterNames, type SurfaceShape, writeHeightGradient } from "../../../server/core/surface/idealSurface.ts";
import { plainStart, residualsMm, type Task } from "./estimator.ts";

const deepestSpread = 0.06;
const firstFacetColumn = parameterNames.indexOf("facetSlopeNut");
const deepestColumn = parameterNames.indexOf("hollowDeepest");

export function weightedStep(
  { plan, spots }: Task,
  shape: SurfaceShape,
  residuals: Float64Array,
  weights: Float64Array,
  noiseMm: number,
): SurfaceShape | null {
  const columns = plan.ridge ? parameterNames.length : firstFacetColumn;
  const rows = spots.length + 1;
  const entries = new Float64Array(rows * columns);
  const gradient = new Float64Array(parameterNames.length);
  spots.forEach((spot, i) => {
    writeHeightGradient(plan, shape, spot.xMm, spot.yMm, gradient);
    entries.set(gradient.subarray(0, columns), i * columns);
  });
  entries[spots.length * columns + deepestColumn] = 1;
  const solved = solveLeastSquares(
    { rows, columns, entries },
    Float64Array.of(...residuals, 0.5 - shape.hollowDeepest),
    Float64Array.of(...weights, (noiseMm / deepestSpread) ** 2),
  );
  if (solved.outcome === "undetermined") return null;
  const moved = Object.fromEntries(
    parameterNames.map((name, j) => [name, shape[name] + (solved.coefficients[j] ?? 0)]),
  ) as SurfaceShape;
  const held = (before: number, after: number): number => Math.min(Math.max(after, before * 0.6), before * 1.7);
  return {
    ...moved,
    radiusNutMm: held(shape.radiusNutMm, moved.radiusNutMm),
    radiusMiddleMm: held(shape.radiusMiddleMm, moved.radiusMiddleMm),
    radiusEndMm: held(shape.radiusEndMm, moved.radiusEndMm),
    hollowDeepest: Math.min(Math.max(moved.hollowDeepest, 0.3), 0.7),
  };
}

/** Least squares in which readings below the surface count `belowShare` of those above it; 1 is ordinary least squares. */
export function expectile(task: Task, start: SurfaceShape, belowShare: number): SurfaceShape | null {
  const firstNoiseMm = 0.05;
  let shape: SurfaceShape | null = start;
  for (let round = 0; round < 6 && shape !== null; round++) {
    const residuals = residualsMm(task, shape);
    const weights = residuals.map((r) => (r > 0 ? 1 : belowShare));
    shape = weightedStep(task, shape, residuals, weights, firstNoiseMm);
  }
  return shape;
}

/** From a plain start by ordinary least squares to the upper readings. */
export function raised(task: Task): SurfaceShape | null {
  const ordinary = expectile(task, plainStart(task), 1);
  return ordinary && expectile(task, ordinary, 0.1);
}

/** Noise as the readings above the surface show it: their median is 0.6745 of it. */
export function upperNoiseMm(residuals: Float64Array, floorMm: number): number {
  const above = residuals.filter((r) => r > 0).sort();
  const middle = above.length === 0 ? 0 : above[Math.floor((above.length - 1) / 2)]!;
  return Math.max(floorMm, middle / 0.6745);
}
