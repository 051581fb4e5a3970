/**
 * How many standard uncertainties count where readings scatter: known factors, a published method, and coverage by simulation.
 */
import { describe, expect, test } from "vitest";
import { birgeRatio, scatterFactor } from "../../../../server/core/history/scatterFactor.ts";
import { normalQuantile, tQuantile } from "../../../../server/core/maths/quantiles.ts";
import { seededRandom } from "../../../../server/core/maths/seededRandom.ts";
import { near } from "../../../support/near.ts";

test("readings that agree as well as their uncertainties say, or are too few to scatter, count with 1.96", () => {
  // 1.959964: normal table, six decimals.
  near(scatterFactor(0, 0), 1.959964, 5e-7);
  near(scatterFactor(2.9, 3), 1.959964, 5e-7);
  near(scatterFactor(0, 6), 1.959964, 5e-7);
});

test("the ratio is the root of χ² over its degrees of freedom", () => {
  expect(birgeRatio(12, 3)).toBe(2);
  expect(birgeRatio(0, 0)).toBe(1);
});

test("with many readings the factor is the ratio's, with few it is Student's of two more degrees of freedom", () => {
  // What is known beforehand counts as 2 of 402: half a hundredth of the ratio.
  near(scatterFactor(1600, 400), 2 * normalQuantile(0.975), 0.03);
  // By hand: t(0.975; 3) = 3.182 (JCGM 100, table G.2: 3.18), s = √((2 + 7)/3).
  near(scatterFactor(7, 1), 3.182 * Math.sqrt(3), 0.001);
});

test("readings that outweigh what was known beforehand count with Student's t times the ratio, as published for few readings", () => {
  // Bodnar and Elster 2014: t of the readings' own degrees of freedom. Of 42 and 82 of them two were known beforehand: within 3 %.
  for (const freedom of [40, 80]) {
    near(
      scatterFactor(9 * freedom, freedom) / (3 * tQuantile(0.975, freedom)),
      1,
      0.03,
      `${freedom} degrees of freedom`,
    );
  }
});

describe.each([
  // Where the uncertainties are right the intervals may be a little wide, never narrow; 20,000 draws: ± 0.3 % at three sigma.
  { timesWorse: 1, from: 95.5, to: 97.2 },
  // Where readings scatter twice as much as their uncertainties say, most of it is caught.
  { timesWorse: 2, from: 84, to: 95 },
])("readings that scatter $timesWorse times what their uncertainties say", ({ timesWorse, from, to }) => {
  test.each([1, 2, 3, 4, 6])("lie within the factor as often as stated, with %i degrees of freedom", (freedom) => {
    const random = seededRandom(40 + freedom);
    const draws = 20_000;
    let held = 0;
    for (let k = 0; k < draws; k++) {
      let chiSquared = 0;
      for (let i = 0; i < freedom; i++) chiSquared += (timesWorse * random.normal()) ** 2;
      if (Math.abs(timesWorse * random.normal()) <= scatterFactor(chiSquared, freedom)) held += 1;
    }
    const percent = (100 * held) / draws;
    expect(percent).toBeGreaterThan(from);
    expect(percent).toBeLessThan(to);
  });
});
