/**
 * Taking in equations one at a time is least squares: the same answer as all of them at once, in any order, and back out again.
 */
import { describe, expect, test } from "vitest";
import { solveLeastSquares } from "../../../../server/core/maths/leastSquares.ts";
import {
  aboutNothing,
  foretold,
  type NormalKnowledge,
  withEquation,
  withoutEquation,
} from "../../../../server/core/maths/normalKnowledge.ts";
import { allNear, near } from "../../../support/near.ts";

/** Some 1e7 lies between what is known before and after, of which double precision leaves nine digits. */
const rounding = 1e-8;

const equations = [
  { row: Float64Array.of(1, 0, 0), observed: 1.2, variance: 0.01 },
  { row: Float64Array.of(1, 1, 1), observed: 2.9, variance: 0.04 },
  { row: Float64Array.of(1, 2, 4), observed: 7.3, variance: 0.01 },
  { row: Float64Array.of(1, 3, 9), observed: 13.8, variance: 0.09 },
  { row: Float64Array.of(1, 4, 16), observed: 22.6, variance: 0.01 },
];

const told = (all: typeof equations, before: NormalKnowledge) =>
  all.reduce((known, { row, observed, variance }) => withEquation(known, row, observed, variance), before);

describe("equations taken in one at a time", () => {
  test("one unknown, known as 0 ± 1, and one equation as good: halfway, with half the variance", () => {
    const known = withEquation(aboutNothing([1]), Float64Array.of(1), 2, 1);
    // Two exact halves.
    expect(known.mean[0]).toBe(1);
    expect(known.covariance[0]).toBe(0.5);
  });

  test("give the coefficients and the covariance of weighted least squares, when little was known before", () => {
    const known = told(equations, aboutNothing([1e3, 1e3, 1e3]));
    const solved = solveLeastSquares(
      { rows: 5, columns: 3, entries: Float64Array.from(equations.flatMap(({ row }) => [...row])) },
      Float64Array.from(equations, ({ observed }) => observed),
      Float64Array.from(equations, ({ variance }) => 1 / variance),
    );
    if (solved.outcome !== "solved") throw new Error(solved.why);
    // Knowledge of ± 1000 beforehand pulls by about 1e-8 of the answer.
    allNear(known.mean, solved.coefficients, 1e-6, "coefficient");
    allNear(known.covariance, solved.unscaledCovariance, 1e-6, "covariance");
  });

  test("give the same in any order", () => {
    const before = aboutNothing([10, 10, 10]);
    const one = told(equations, before);
    const other = told(equations.toReversed(), before);
    allNear(one.mean, other.mean, rounding, "mean");
    allNear(one.covariance, other.covariance, rounding, "covariance");
  });

  test("can be taken out again", () => {
    const before = aboutNothing([10, 10, 10]);
    const { row, observed, variance } = equations[2]!;
    const without = withoutEquation(told(equations, before), row, observed, variance);
    const never = told(equations.toSpliced(2, 1), before);
    allNear(without.mean, never.mean, rounding, "mean");
    allNear(without.covariance, never.covariance, rounding, "covariance");
  });

  test("foretell an equation's left side with its variance", () => {
    const known = { mean: Float64Array.of(2, 3), covariance: Float64Array.of(1, 0.5, 0.5, 4) };
    const { value, variance } = foretold(known, Float64Array.of(1, -1));
    // 2 - 3; 1 - 2 · 0.5 + 4: exact in binary.
    near(value, -1, 0);
    near(variance, 4, 0);
  });

  test("change nothing that they were given", () => {
    const before = aboutNothing([1, 2]);
    withEquation(before, Float64Array.of(1, 1), 3, 1);
    expect([...before.mean, ...before.covariance]).toEqual([0, 0, 1, 0, 0, 4]);
  });
});
