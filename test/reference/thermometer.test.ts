/**
 * A fitted line with its uncertainties: JCGM 100:2008 (GUM), annex H.3, calibration of a thermometer
 * (figures and source: thermometer.json). Tolerances are half a unit in the last printed place.
 */
import { expect, test } from "vitest";
import { solveLeastSquares } from "../../server/core/maths/leastSquares.ts";
import { allNear, near } from "../support/near.ts";
import set from "./thermometer.json" with { type: "json" };

const { printed } = set;
const rows = set.temperatureC.length;
const entries = Float64Array.from(set.temperatureC.flatMap((temperature) => [1, temperature - set.referenceC]));
const line = solveLeastSquares({ rows, columns: 2, entries }, Float64Array.from(set.correctionC));
if (line.outcome !== "solved") throw new Error(line.why);
const intercept = line.coefficients[0]!;
const slope = line.coefficients[1]!;
const residualSd = Math.sqrt(line.sumOfSquares / line.degreesOfFreedom);
const varianceOfIntercept = line.unscaledCovariance[0]!;
const shared = line.unscaledCovariance[1]!;
const varianceOfSlope = line.unscaledCovariance[3]!;

test("intercept and slope are the printed ones", () => {
  near(intercept, printed.intercept, 5e-5, "intercept");
  near(slope, printed.slope, 5e-6, "slope");
});

test("degrees of freedom and the scatter about the line are the printed ones", () => {
  expect(line.degreesOfFreedom).toBe(printed.degreesOfFreedom);
  near(residualSd, printed.residualSd, 5e-5, "residual standard deviation");
});

test("standard uncertainties and the correlation are the printed ones", () => {
  near(residualSd * Math.sqrt(varianceOfIntercept), printed.uIntercept, 5e-5, "u(intercept)");
  near(residualSd * Math.sqrt(varianceOfSlope), printed.uSlope, 5e-6, "u(slope)");
  near(shared / Math.sqrt(varianceOfIntercept * varianceOfSlope), printed.correlation, 5e-3, "correlation");
});

test("a prediction beyond the readings, at 30 °C, carries the printed uncertainty", () => {
  const beyond = 30 - set.referenceC;
  near(intercept + slope * beyond, printed.at30, 5e-5, "correction at 30 °C");
  const variance = varianceOfIntercept + 2 * beyond * shared + beyond ** 2 * varianceOfSlope;
  near(residualSd * Math.sqrt(variance), printed.uAt30, 5e-5, "its standard uncertainty");
});

test("predicted corrections and residuals are those of the table", () => {
  allNear(line.residuals, printed.difference, 5e-5, "difference");
  allNear(
    line.residuals.map((residual, i) => set.correctionC[i]! - residual),
    printed.predicted,
    5e-5,
    "predicted",
  );
});
