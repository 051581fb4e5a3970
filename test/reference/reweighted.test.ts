/**
 * Least squares with weights, against the classical sets of robust regression (figures and sources: reweighted.json).
 *
 * The iteration stands here: start from ordinary least squares, weigh each residual against the scale median|r|/0.6745, solve,
 * repeat. What is under test is the weighted solution, and what such weights can't do: the star cluster keeps the wrong slope.
 */
import { describe, expect, test } from "vitest";
import { solveLeastSquares } from "../../server/core/maths/leastSquares.ts";
import { median } from "../../server/core/maths/quantiles.ts";
import { allNear, near } from "../support/near.ts";
import published from "./reweighted.json" with { type: "json" };

type Fitted = { readonly coefficients: readonly number[]; readonly scale: number };

type RobustSet = {
  readonly name: string;
  readonly rows: readonly (readonly number[])[];
  readonly observed: readonly number[];
  readonly leastSquares: readonly number[];
  readonly fits: readonly {
    readonly rule: string;
    readonly printed?: Fitted;
    readonly fixedPoint: Fitted & { readonly weights?: readonly number[] };
  }[];
};

const sets: readonly RobustSet[] = published.sets;

/** Weight of a residual in units of the scale; 1.345, 4.685 and 2, 4, 8 are the usual constants of these rules. */
const weightRules: Readonly<Record<string, (t: number) => number>> = {
  huber: (t) => Math.min(1, 1.345 / Math.abs(t)),
  bisquare: (t) => (Math.abs(t) < 4.685 ? (1 - (t / 4.685) ** 2) ** 2 : 0),
  hampel: (t) => {
    const size = Math.abs(t);
    if (size <= 2) return 1;
    if (size <= 4) return 2 / size;
    return size < 8 ? (2 * (8 - size)) / (4 * size) : 0;
  },
};

describe.each(sets)("the $name", (set) => {
  const leastSquares = ordinary(set);

  test("have their ordinary least-squares fit", () => {
    // Given to twelve decimals, of numbers up to 260: half a unit there and some rounding.
    allNear(leastSquares, set.leastSquares, 1e-9, "coefficient");
  });

  test.each(set.fits)("have their published fit by $rule weights", ({ rule, printed, fixedPoint }) => {
    const fit = reweighted(set, rule, leastSquares);
    // The second implementation iterated to 1e-11; this one stops at 1e-12.
    allNear(fit.coefficients, fixedPoint.coefficients, 1e-8, "coefficient");
    near(fit.scale, fixedPoint.scale, 1e-8, "scale");
    // Weights are given to ten decimals.
    if (fixedPoint.weights) allNear(fit.weights, fixedPoint.weights, 1e-8, "weight");
    if (!printed) return;
    // Printed at a change of 1e-4 in a pass: relative.
    printed.coefficients.forEach((coefficient, j) => {
      near(fit.coefficients[j]!, coefficient, 1e-4 * Math.abs(coefficient), `printed coefficient ${j}`);
    });
    // The printed scale is that of the pass before the last: another few of those steps away.
    near(fit.scale, printed.scale, 1e-3 * printed.scale, "printed scale");
  });
});

describe("the star cluster", () => {
  const stars = published.sets.find(({ name }) => name === "star cluster")!;
  const good = stars.fromAGoodStart!;

  test("keeps the slope of its four giants however they are weighed, where the start already leans to them", () => {
    for (const { rule } of stars.fits) {
      expect(reweighted(stars, rule, ordinary(stars)).coefficients[1]).toBeLessThan(0);
    }
  });

  test("has the slope of the others from a start that left the giants out, and they count nothing", () => {
    const fit = reweighted(stars, good.rule, good.start);
    allNear(fit.coefficients, good.fixedPoint.coefficients, 1e-8, "coefficient");
    near(fit.scale, good.fixedPoint.scale, 1e-8, "scale");
    expect(fit.coefficients[1]).toBeGreaterThan(2);
    const countsNothing = [...fit.weights.keys()].filter((i) => fit.weights[i] === 0);
    expect(countsNothing).toEqual(good.left);
  });
});

function ordinary(set: RobustSet): readonly number[] {
  return solve(set, new Float64Array(set.observed.length).fill(1)).coefficients;
}

function reweighted(set: RobustSet, rule: string, start: readonly number[]) {
  const weightOf = weightRules[rule];
  if (weightOf === undefined) throw new Error(`no such rule: ${rule}`);
  let coefficients = start;
  let residuals = residualsOf(set, coefficients);
  for (let pass = 0; pass < 500; pass++) {
    const scale = median(residuals.map(Math.abs)) / 0.6745;
    const weights = Float64Array.from(residuals, (residual) => (residual === 0 ? 1 : weightOf(residual / scale)));
    const next = solve(set, weights).coefficients;
    const change = Math.max(...next.map((value, j) => Math.abs(value / coefficients[j]! - 1)));
    coefficients = next;
    residuals = residualsOf(set, coefficients);
    if (change < 1e-12) return { coefficients, scale, weights };
  }
  throw new Error("does not stand still");
}

function solve(set: RobustSet, weights: Float64Array): { readonly coefficients: readonly number[] } {
  const design = { rows: set.rows.length, columns: set.rows[0]!.length, entries: Float64Array.from(set.rows.flat()) };
  const solved = solveLeastSquares(design, Float64Array.from(set.observed), weights);
  if (solved.outcome !== "solved") throw new Error(solved.why);
  return { coefficients: [...solved.coefficients] };
}

function residualsOf(set: RobustSet, coefficients: readonly number[]): readonly number[] {
  return set.observed.map((value, i) => value - set.rows[i]!.reduce((sum, x, j) => sum + x * coefficients[j]!, 0));
}
