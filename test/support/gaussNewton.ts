/**
 * Gauss–Newton with halved steps over the project's own least squares: for published non-linear sets.
 *
 * A step that does not lower the sum of squares is halved, up to thirty times. At the bottom, where the sum of squares can no
 * longer tell, a last full step is taken as long as it is small: that is where the last digits come from.
 *
 * in: model with its gradient, points, start -> out: parameters, their standard deviations, sum of squares; or where it stuck.
 */
import { type Solved, solveLeastSquares } from "../../server/core/maths/leastSquares.ts";

/** A curve y(x; b) and its derivatives by each parameter. */
export type Curve = {
  readonly valueAt: (x: number, parameters: readonly number[]) => number;
  readonly gradientAt: (x: number, parameters: readonly number[]) => readonly number[];
};

export type Points = { readonly x: readonly number[]; readonly y: readonly number[] };

export type FittedCurve =
  | {
      readonly outcome: "stands still";
      readonly parameters: readonly number[];
      readonly standardDeviations: readonly number[];
      readonly sumOfSquares: number;
      readonly residualSd: number;
      readonly steps: number;
    }
  | { readonly outcome: "stuck"; readonly why: string; readonly steps: number };

const mostHalvings = 30;
/** Relative change of every parameter below which the fit stands still. */
const still = 1e-12;

export function fitCurve(curve: Curve, points: Points, start: readonly number[], mostSteps = 200): FittedCurve {
  let at = start;
  for (let steps = 0; steps < mostSteps; steps++) {
    const solved = stepFrom(curve, points, at);
    if (solved === null) return { outcome: "stuck", why: "the step is undetermined", steps };
    const change = [...solved.coefficients];
    const size = Math.max(...change.map((by, j) => Math.abs(by) / Math.max(Math.abs(at[j]!), Number.MIN_VALUE)));
    if (size < still) return standing(at, solved, sumOfSquares(curve, points, at), steps);
    const next = size < 1e-7 ? moved(at, change, 1) : halved(curve, points, at, change);
    if (next === null) return { outcome: "stuck", why: "no part of the step lowers the sum of squares", steps };
    at = next;
  }
  return { outcome: "stuck", why: "too many steps", steps: mostSteps };
}

function stepFrom(curve: Curve, { x, y }: Points, at: readonly number[]): Solved | null {
  const entries = Float64Array.from(x.flatMap((xi) => curve.gradientAt(xi, at)));
  const residuals = Float64Array.from(x, (xi, i) => y[i]! - curve.valueAt(xi, at));
  if (![...entries, ...residuals].every(Number.isFinite)) return null;
  const solved = solveLeastSquares({ rows: x.length, columns: at.length, entries }, residuals);
  return solved.outcome === "solved" ? solved : null;
}

/** The longest of the full step, its half, its quarter … that lowers the sum of squares. */
function halved(curve: Curve, points: Points, at: readonly number[], change: readonly number[]) {
  const before = sumOfSquares(curve, points, at);
  for (let halvings = 0; halvings <= mostHalvings; halvings++) {
    const tried = moved(at, change, 2 ** -halvings);
    if (sumOfSquares(curve, points, tried) < before) return tried;
  }
  return null;
}

function moved(at: readonly number[], change: readonly number[], share: number): readonly number[] {
  return at.map((value, j) => value + share * change[j]!);
}

function sumOfSquares(curve: Curve, { x, y }: Points, at: readonly number[]): number {
  const sum = x.reduce((squares, xi, i) => squares + (y[i]! - curve.valueAt(xi, at)) ** 2, 0);
  return Number.isFinite(sum) ? sum : Number.POSITIVE_INFINITY;
}

function standing(at: readonly number[], solved: Solved, squares: number, steps: number): FittedCurve {
  const residualSd = Math.sqrt(squares / solved.degreesOfFreedom);
  return {
    outcome: "stands still",
    parameters: at,
    standardDeviations: at.map((_, j) => residualSd * Math.sqrt(solved.unscaledCovariance[j * at.length + j]!)),
    sumOfSquares: squares,
    residualSd,
    steps,
  };
}
