/**
 * One Gauss–Newton step of the surface: the change of shape that best takes up given residuals under given weights.
 *
 * in: places (mm), shape, residuals (mm, reading less surface), weights -> out: the shape after the step, (JᵀWJ)⁻¹.
 * A soft constraint holds u0, where the hollow is deepest, to its setting; it enters as one more row of the design.
 */
import { solveLeastSquares } from "../maths/leastSquares.ts";
import type { Place } from "../units.ts";
import { parameterNames, type SurfacePlan, type SurfaceShape, writeHeightGradient } from "./idealSurface.ts";

/** u0's setting, how far it may be off (one standard deviation), and the noise that readings of weight 1 carry, mm. */
export type SoftDeepest = { readonly setting: number; readonly spread: number; readonly noiseMm: number };

export type SurfaceStep =
  | {
      readonly outcome: "solved";
      readonly shape: SurfaceShape;
      /** Row-major in the order of parameterNames; zero for what is not fitted. */
      readonly unscaledCovariance: Float64Array;
    }
  | { readonly outcome: "undetermined"; readonly why: string };

const deepestColumn = parameterNames.indexOf("hollowDeepest");
const firstFacetColumn = parameterNames.indexOf("facetSlopeNut");

export function surfaceStep(
  places: readonly Place[],
  plan: SurfacePlan,
  shape: SurfaceShape,
  residuals: Float64Array,
  weights: Float64Array,
  deepest: SoftDeepest,
): SurfaceStep {
  const count = residuals.length;
  const all = parameterNames.length;
  const columns = plan.ridge ? all : firstFacetColumn;
  const entries = new Float64Array((count + 1) * columns);
  const gradient = new Float64Array(all);
  for (let i = 0; i < count; i += 1) {
    writeHeightGradient(plan, shape, places[i].xMm, places[i].yMm, gradient);
    for (let j = 0; j < columns; j += 1) entries[i * columns + j] = gradient[j];
  }
  entries[count * columns + deepestColumn] = 1;
  const observed = new Float64Array(count + 1);
  observed.set(residuals);
  observed[count] = deepest.setting - shape.hollowDeepest;
  const allWeights = new Float64Array(count + 1);
  allWeights.set(weights);
  allWeights[count] = (deepest.noiseMm / deepest.spread) ** 2;
  const solved = solveLeastSquares({ rows: count + 1, columns, entries }, observed, allWeights);
  if (solved.outcome === "undetermined") return solved;
  const unscaledCovariance = new Float64Array(all * all);
  for (let i = 0; i < columns; i += 1) {
    for (let j = 0; j < columns; j += 1) {
      unscaledCovariance[i * all + j] = solved.unscaledCovariance[i * columns + j];
    }
  }
  return { outcome: "solved", shape: moved(shape, solved.coefficients), unscaledCovariance };
}

/** The shape after a step; radii and u0 are kept where the formulas hold. */
function moved(shape: SurfaceShape, changes: Float64Array): SurfaceShape {
  const raw = Object.fromEntries(
    parameterNames.map((name, i) => [name, shape[name] + (changes[i] ?? 0)]),
  ) as SurfaceShape;
  const radius = (before: number, after: number): number => Math.min(Math.max(after, before * 0.6), before * 1.7);
  return {
    ...raw,
    radiusNutMm: radius(shape.radiusNutMm, raw.radiusNutMm),
    radiusMiddleMm: radius(shape.radiusMiddleMm, raw.radiusMiddleMm),
    radiusEndMm: radius(shape.radiusEndMm, raw.radiusEndMm),
    hollowDeepest: Math.min(Math.max(raw.hollowDeepest, 0.3), 0.7),
  };
}
