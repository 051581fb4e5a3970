/**
 * Non-linear least squares against the NIST Statistical Reference Datasets, seven sets from two starts each (figures and source:
 * nistNonlinear.json): Gauss–Newton steps through the project's own least squares, halved where they overshoot.
 *
 * The board's fit starts near its answer; these starts are the published ones, some of them far away on purpose. What plain
 * halving does not reach is listed and not claimed: a damped step would be needed there.
 */
import { describe, expect, test } from "vitest";
import { type Curve, fitCurve } from "../support/gaussNewton.ts";
import { agreesToDigits } from "../support/near.ts";
import { publishedCurves } from "../support/publishedCurves.ts";
import nist from "./nistNonlinear.json" with { type: "json" };

type NistSet = (typeof nist.sets)[number];

/**
 * Starts from which halved steps alone don't arrive: there the step is undetermined or no part of it helps (a pole, or a bell
 * that misses every point), and for MGH09 two hundred steps don't do.
 */
const notClaimed = ["Rat43, start 1", "MGH09, start 1", "MGH10, start 1", "Eckerle4, start 1"];

/** Certified to 11; the last one or two are lost to rounding where the condition is worst (Thurber, MGH09). */
const digitsAsked = 10;

const fits = nist.sets.flatMap((set) =>
  set.starts.map((start, i) => ({ name: `${set.name}, start ${i + 1}`, set, fit: fitCurve(curveOf(set), set, start) })),
);

describe.each(fits.filter(({ name }) => !notClaimed.includes(name)))("NIST $name", ({ fit, set: { certified } }) => {
  test("parameters, their standard deviations and the sum of squares agree with the certified ones", () => {
    if (fit.outcome === "stuck") throw new Error(`after ${fit.steps} steps ${fit.why}`);
    certified.parameters.forEach((parameter, j) => {
      agreesToDigits(fit.parameters[j]!, parameter, digitsAsked, `parameter ${j + 1}`);
      agreesToDigits(
        fit.standardDeviations[j]!,
        certified.standardDeviations[j]!,
        digitsAsked,
        `its deviation ${j + 1}`,
      );
    });
    agreesToDigits(fit.sumOfSquares, certified.sumOfSquares, digitsAsked, "sum of squares");
    agreesToDigits(fit.residualSd, certified.residualSd, digitsAsked, "residual standard deviation");
  });
});

test.each(fits.filter(({ name }) => notClaimed.includes(name)))(
  "NIST $name is not reached by halved steps, and says so instead of giving a wrong answer",
  ({ fit }) => {
    expect(fit.outcome).toBe("stuck");
  },
);

function curveOf(set: NistSet): Curve {
  const curve = publishedCurves[set.model];
  if (curve === undefined) throw new Error(`no such curve: ${set.model}`);
  return curve;
}
