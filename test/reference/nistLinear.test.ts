/**
 * Least squares against the NIST Statistical Reference Datasets, all eleven linear sets (figures and source: nistLinear.json).
 *
 * The digits asked are those that a QR of the raw columns can reach in double precision, which lie below the 15 certified:
 * about 16 less the decimal logarithm of the condition, and for Wampler5 and Filip with the weight of the residuals on top.
 */
import { describe, expect, test } from "vitest";
import { type Solved, solveLeastSquares } from "../../server/core/maths/leastSquares.ts";
import { agreesToDigits, near } from "../support/near.ts";
import nist from "./nistLinear.json" with { type: "json" };

type NistSet = (typeof nist.sets)[number];

const digitsAsked: Readonly<Record<string, number>> = {
  Norris: 11,
  Pontius: 11,
  NoInt1: 13,
  NoInt2: 13,
  Longley: 10,
  Filip: 6.5,
  Wampler1: 8,
  Wampler2: 11,
  Wampler3: 8,
  Wampler4: 8,
  Wampler5: 6.5,
};

describe.each(nist.sets)("NIST $name ($level level)", (set) => {
  const least = digitsAsked[set.name]!;

  test("coefficients agree with the certified ones", () => {
    const fit = fitOf(set);
    set.coefficients.forEach((certified, j) => {
      agreesToDigits(fit.coefficients[j]!, certified, least, `coefficient ${j}`);
    });
  });

  test("standard errors and residual standard deviation agree with the certified ones", () => {
    const fit = fitOf(set);
    const residualSd = Math.sqrt(fit.sumOfSquares / fit.degreesOfFreedom);
    const columns = set.coefficients.length;
    if (set.residualSd === 0) {
      // An exact polynomial: what is left is rounding, a few units in the last place of readings up to 4 million.
      near(residualSd, 0, 1e-14 * Math.max(...set.y), "residual standard deviation");
      return;
    }
    agreesToDigits(residualSd, set.residualSd, least, "residual standard deviation");
    set.standardErrors.forEach((certified, j) => {
      agreesToDigits(
        residualSd * Math.sqrt(fit.unscaledCovariance[j * columns + j]!),
        certified,
        least,
        `standard error ${j}`,
      );
    });
  });

  test("the share of the spread explained (R²) agrees with the certified one", () => {
    const fit = fitOf(set);
    const throughOrigin = set.model === "line through the origin";
    const mean = throughOrigin ? 0 : set.y.reduce((sum, y) => sum + y, 0) / set.y.length;
    const total = set.y.reduce((sum, y) => sum + (y - mean) ** 2, 0);
    agreesToDigits(1 - fit.sumOfSquares / total, set.rSquared, least, "R²");
  });
});

test("the hardest set is solved, and its condition says how hard it was", () => {
  const fit = fitOf(nist.sets.find((set) => set.name === "Filip")!);
  // With columns at unit length the condition of Filip lies between 1e9 and 1e11: six digits are left of sixteen.
  expect(fit.condition).toBeGreaterThan(1e9);
  expect(fit.condition).toBeLessThan(1e11);
});

function fitOf(set: NistSet): Solved {
  const rows = set.x.map((x) => designRow(set.model, x));
  const design = { rows: rows.length, columns: rows[0]!.length, entries: Float64Array.from(rows.flat()) };
  const fit = solveLeastSquares(design, Float64Array.from(set.y));
  if (fit.outcome !== "solved") throw new Error(`${set.name}: ${fit.why}`);
  return fit;
}

function designRow(model: string, x: number | number[]): number[] {
  if (Array.isArray(x)) return [1, ...x];
  if (model === "line through the origin") return [x];
  const degree = Number(model.split(" ")[1]);
  return Array.from({ length: degree + 1 }, (_, power) => x ** power);
}
