/**
 * Which of a few readings may be worn: on a straight line, where every way can be checked by hand. Lengths in mm.
 */
import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../../data/make/random.ts";
import { aboutNothing } from "../../../../server/core/maths/normalKnowledge.ts";
import { waysOfWear } from "../../../../server/core/quickLook/waysOfWear.ts";
import { near } from "../../../support/near.ts";

/** Readings of a level line at 0: one unknown, its height. */
const level = (residuals: readonly number[]) => ({
  rows: residuals.map(() => Float64Array.of(1)),
  residualsMm: Float64Array.from(residuals),
});
const before = aboutNothing([100]);

describe("readings of a level line", () => {
  test("none low: the mean, each hardly likely worn", () => {
    const { knowledge, worn } = waysOfWear(level([0.004, -0.003, 0.001, -0.002, 0.003, -0.003]), before, 0.003);
    // Their mean is 0; the likeliest wear of any lies within a tenth of the noise.
    near(knowledge.mean[0]!, 0, 0.002);
    expect(Math.max(...worn)).toBeLessThan(0.2);
  });

  test("one 0.2 low: it is worn, and says nothing of the height", () => {
    const { knowledge, worn } = waysOfWear(level([0.004, -0.003, -0.2, -0.002, 0.003, -0.002]), before, 0.003);
    near(knowledge.mean[0]!, 0, 0.002);
    expect(worn[2]).toBeGreaterThan(0.99);
  });

  test("two of six low by different depths: both are worn", () => {
    const { worn } = waysOfWear(level([0.004, -0.12, -0.2, -0.002, 0.003, -0.002]), before, 0.003);
    expect([worn[1]! > 0.99, worn[2]! > 0.99]).toEqual([true, true]);
  });

  test("one 0.15 high: a slip, since wood does not grow", () => {
    const { knowledge, worn } = waysOfWear(level([0.004, -0.003, 0.15, -0.002, 0.003, -0.002]), before, 0.003);
    near(knowledge.mean[0]!, 0, 0.005);
    expect(worn[2]).toBeGreaterThan(0.95);
  });

  test("one 0.02 low of three: it may be worn or may be scatter, and the height is the less certain", () => {
    const calm = waysOfWear(level([0, 0, 0]), before, 0.003);
    const unsure = waysOfWear(level([0, 0, -0.02]), before, 0.003);
    expect(unsure.worn[2]).toBeGreaterThan(0.1);
    expect(unsure.worn[2]).toBeLessThan(0.9);
    expect(unsure.knowledge.covariance[0]!).toBeGreaterThan(calm.knowledge.covariance[0]!);
  });

  test.each([
    ["two that differ by 0.03 and one between", [0, -0.015, -0.03]],
    ["three together and one 0.03 low", [0.004, -0.004, 0, -0.03]],
    ["three together and two 0.06 low", [0.005, 0, -0.004, -0.06, -0.065]],
  ])("%s: mean and spread as by the integral over every height of the line", (_, residuals) => {
    const { knowledge } = waysOfWear(level(residuals), before, 0);
    const exact = byIntegral(residuals);
    // The ways take worn readings one by one, each foretold by the unworn alone, and at most half of them as worn.
    near(knowledge.mean[0]!, exact.mean, 0.15 * exact.spread, "mean");
    near(Math.sqrt(knowledge.covariance[0]!), exact.spread, 0.15 * exact.spread, "spread");
  });

  test("in any order the same", () => {
    const residuals = [0.004, -0.12, -0.2, -0.002, 0.003, -0.002];
    const one = waysOfWear(level(residuals), before, 0.003);
    const other = waysOfWear(level(residuals.toReversed()), before, 0.003);
    // The ways are summed in another order, that is all.
    near(one.knowledge.mean[0]!, other.knowledge.mean[0]!, 1e-6);
  });

  test("that scatter by 0.02 are found to scatter so, within a third, over 50 seeds", () => {
    const noises = Array.from({ length: 50 }, (_, seed) => {
      const random = seededRandom(seed);
      return waysOfWear(level(Array.from({ length: 12 }, () => 0.02 * random.normal())), before, 0.003).noiseMm;
    });
    const mean = noises.reduce((sum, noise) => sum + noise, 0) / 50;
    // Twelve readings tell it to 21 % each (1/√(2·11)), and what is usual, 0.01, pulls it down.
    near(mean, 0.02, 0.02 / 3);
  });
});

/**
 * Given the line's height the readings are independent of one another: each unworn (normal), worn (normal scatter and exponential wear, by
 * a sum over depths) or a slip. So mean and spread of the height are sums over heights and noises: another way altogether.
 */
function byIntegral(residuals: readonly number[]): { mean: number; spread: number } {
  const normal = (off: number, sd: number) => Math.exp(-0.5 * (off / sd) ** 2) / (sd * Math.sqrt(2 * Math.PI));
  const depths = Array.from({ length: 400 }, (_, k) => (k + 0.5) * 0.002);
  const sums = [0, 0, 0];
  for (let k = 0; k < 6; k++) {
    const noiseMm = [0.005, 0.0085, 0.0145, 0.025, 0.043, 0.075][k]!;
    const prior = Math.exp(-0.5 * (Math.log(noiseMm / 0.01) / Math.log(1.7)) ** 2);
    for (let heightMm = -0.3; heightMm <= 0.2; heightMm += 0.001) {
      const likely = residuals.reduce((product, residual) => {
        const worn = depths.reduce(
          (sum, d) => sum + normal(residual + d - heightMm, noiseMm) * Math.exp(-d / 0.12) * 0.002,
          0,
        );
        return product * (0.87 * normal(residual - heightMm, noiseMm) + (0.12 * worn) / 0.12 + 0.01 / 4);
      }, prior);
      [1, heightMm, heightMm ** 2].forEach((power, at) => {
        sums[at] = sums[at]! + likely * power;
      });
    }
  }
  const mean = sums[1]! / sums[0]!;
  return { mean, spread: Math.sqrt(sums[2]! / sums[0]! - mean ** 2) };
}
