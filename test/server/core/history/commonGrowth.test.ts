/**
 * One growth common to several runs: the GUM's straight line (test/reference/thermometer.json), the general least squares of this
 * program (which is checked against the NIST sets), and cases by hand. Depths in mm.
 */
import { describe, expect, test } from "vitest";
import { commonGrowth, type GrowthPoint } from "../../../../server/core/history/commonGrowth.ts";
import { birgeRatio } from "../../../../server/core/history/scatterFactor.ts";
import { solveLeastSquares } from "../../../../server/core/maths/leastSquares.ts";
import { seededRandom } from "../../../../server/core/maths/seededRandom.ts";
import thermometer from "../../../reference/thermometer.json" with { type: "json" };
import { agreesToDigits, near } from "../../../support/near.ts";

const point = (at: number, depthMm: number, uMm: number, run = 0, atLeast = false): GrowthPoint => ({
  at,
  depthMm,
  uMm,
  run,
  atLeast,
});

test("a line through a thermometer's readings is the GUM's: slope, height, uncertainties and scatter (JCGM 100, H.3)", () => {
  const { temperatureC, correctionC, referenceC, printed } = thermometer;
  const line = commonGrowth(temperatureC.map((at, i) => point(at - referenceC, correctionC[i]!, 1)))!;
  const through = line.lines.get(0)!;
  const noise = birgeRatio(line.chiSquared, line.degreesOfFreedom);
  // Half a unit in the last printed place of each.
  near(line.rateMm, printed.slope, 5e-6, "slope");
  near(through.depthMm - line.rateMm * through.at, printed.intercept, 5e-5, "height at 20 °C");
  near(noise * line.rateUMm, printed.uSlope, 5e-6, "u of the slope");
  near(noise * Math.hypot(through.uMm, line.rateUMm * through.at), printed.uIntercept, 5e-5, "u at 20 °C");
  near(noise, printed.residualSd, 5e-5, "scatter");
  expect(line.degreesOfFreedom).toBe(printed.degreesOfFreedom);
});

test("several runs of unequal uncertainties have the growth that least squares with a start for each finds", () => {
  const random = seededRandom(11);
  const points = [0, 0, 0, 1, 1, 1, 1, 2, 2].map((run) =>
    point(10 * random.uniform(), random.uniform(), 0.01 + 0.05 * random.uniform(), run),
  );
  const growth = commonGrowth(points)!;
  const entries = points.flatMap(({ at, run }) => [at, ...[0, 1, 2].map((other) => (other === run ? 1 : 0))]);
  const weights = Float64Array.from(points, ({ uMm }) => 1 / uMm ** 2);
  const depths = Float64Array.from(points, ({ depthMm }) => depthMm);
  const design = { rows: points.length, columns: 4, entries: Float64Array.from(entries) };
  const solved = solveLeastSquares(design, depths, weights);
  if (solved.outcome !== "solved") throw new Error(solved.why);
  // Both in double precision; the sums lose a few of sixteen digits.
  agreesToDigits(growth.rateMm, solved.coefficients[0]!, 11, "rate");
  agreesToDigits(growth.rateUMm ** 2, solved.unscaledCovariance[0]!, 11, "variance");
  agreesToDigits(growth.chiSquared, solved.sumOfSquares, 11, "χ²");
  expect(growth.degreesOfFreedom).toBe(solved.degreesOfFreedom);
  for (const run of [0, 1, 2]) {
    const { at, depthMm } = growth.lines.get(run)!;
    agreesToDigits(depthMm - growth.rateMm * at, solved.coefficients[run + 1]!, 10, `start of run ${run}`);
  }
});

describe("two surveys", () => {
  test("tell the difference over the time, with both uncertainties", () => {
    const growth = commonGrowth([point(1, 0.1, 0.03), point(3, 0.2, 0.04)])!;
    // By hand: 0.1 / 2, √(0.03² + 0.04²) / 2.
    near(growth.rateMm, 0.05, 1e-14);
    near(growth.rateUMm, 0.025, 1e-14);
    expect(growth).toMatchObject({ degreesOfFreedom: 0, points: 2, runs: 1 });
    near(growth.chiSquared, 0, 1e-20);
  });

  test("at one time, or each in a run of its own, tell none", () => {
    expect(commonGrowth([point(1, 0.1, 0.03), point(1, 0.2, 0.03)])).toBeNull();
    expect(commonGrowth([point(1, 0.1, 0.03, 0), point(3, 0.2, 0.03, 1)])).toBeNull();
    expect(commonGrowth([])).toBeNull();
  });
});

test("a run of one survey has a line to start from and no say in the growth", () => {
  const growth = commonGrowth([point(0, 0.1, 0.02), point(2, 0.2, 0.02), point(5, 0.03, 0.01, 1)])!;
  near(growth.rateMm, 0.05, 1e-14);
  expect(growth.points).toBe(2);
  expect(growth.lines.get(1)).toMatchObject({ at: 5, depthMm: 0.03 });
  // √(1/(1/0.01²)): one rounding.
  near(growth.lines.get(1)!.uMm, 0.01, 1e-15);
});

describe("a depth that may be deeper than it reads", () => {
  const runOf = (...hidden: boolean[]) =>
    commonGrowth(hidden.map((atLeast, i) => point(i, 0.1 * i, 0.02, 0, atLeast)))!;

  test("late in its run makes the growth at least what it is", () => {
    expect(runOf(false, false, true).hidden).toBe("at least");
    expect(runOf(false, false, false).hidden).toBe("nothing");
  });

  test("early in its run leaves the growth open either way", () => {
    expect(runOf(true, false, false).hidden).toBe("either way");
    expect(runOf(true, true, true).hidden).toBe("either way");
  });

  test("is right about the sign: deeper at that visit moves the growth that way", () => {
    const with3 = (last: number) =>
      commonGrowth([point(0, 0, 0.02), point(1, 0.1, 0.02), point(2, last, 0.02)])!.rateMm;
    expect(with3(0.3)).toBeGreaterThan(with3(0.2));
  });
});
