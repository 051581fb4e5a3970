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

  test("one 0.5 high: a slip, since wood does not grow", () => {
    const { knowledge, worn } = waysOfWear(level([0.004, -0.003, 0.5, -0.002, 0.003, -0.002]), before, 0.003);
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
