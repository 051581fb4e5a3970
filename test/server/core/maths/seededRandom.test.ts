/**
 * Seeded random numbers: the published sequence, the same every time, and spread as they should be.
 */
import { describe, expect, test } from "vitest";
import { normalCdf } from "../../../../server/core/maths/quantiles.ts";
import { seededRandom, xoshiro128PlusPlus } from "../../../../server/core/maths/seededRandom.ts";
import { near } from "../../../support/near.ts";

test("the generator gives the reference sequence of its authors' code", () => {
  // State 1, 2, 3, 4; as carried by a public Rust implementation's tests (from memory). The first by hand: rotl(1 + 4, 7) + 1.
  const next = xoshiro128PlusPlus([1, 2, 3, 4]);
  expect(Array.from({ length: 10 }, next)).toEqual([
    641, 1573767, 3222811527, 3517856514, 836907274, 4247214768, 3867114732, 1355841295, 495546011, 621204420,
  ]);
});

describe("a seed", () => {
  const drawn = (seed: number) => {
    const random = seededRandom(seed);
    return Array.from({ length: 5 }, () => [random.uniform(), random.normal()]);
  };
  test("gives the same numbers each time", () => {
    expect(drawn(42)).toEqual(drawn(42));
  });
  test("next to another gives quite different ones", () => {
    expect(drawn(42)).not.toEqual(drawn(43));
    expect(drawn(0)).not.toEqual(drawn(-1));
  });
  test("must be a number", () => {
    expect(() => seededRandom(Number.NaN)).toThrow(RangeError);
  });
});

describe("a hundred thousand numbers", () => {
  const count = 100_000;

  test("uniform ones lie in [0, 1), with mean ½ and variance 1/12", () => {
    const random = seededRandom(1);
    const sample = Array.from({ length: count }, () => random.uniform());
    expect(Math.min(...sample.slice(0, 1000))).toBeGreaterThanOrEqual(0);
    expect(sample.every((value) => value >= 0 && value < 1)).toBe(true);
    // Four standard deviations of the mean, 4·√(1/12)/√count, and of the variance, 4·√(1/180)/√count.
    near(meanOf(sample), 0.5, 0.0037);
    near(meanOf(sample.map((value) => (value - 0.5) ** 2)), 1 / 12, 0.00095);
  });

  test("normal ones have mean 0, variance 1, and the normal share below each z", () => {
    const random = seededRandom(2);
    const sample = Array.from({ length: count }, () => random.normal());
    // Four standard deviations: 4/√count, 4·√2/√count, 4·½/√count at most.
    near(meanOf(sample), 0, 0.0127);
    near(meanOf(sample.map((value) => value ** 2)), 1, 0.018);
    for (const z of [-2, -1, 0, 0.5, 1.5]) {
      near(sample.filter((value) => value < z).length / count, normalCdf(z), 0.0064, `share below ${z}`);
    }
  });

  test("each normal one is free of the one before", () => {
    const random = seededRandom(3);
    const sample = Array.from({ length: count }, () => random.normal());
    // Four standard deviations of a correlation, 4/√count.
    near(meanOf(sample.slice(1).map((value, i) => value * sample[i]!)), 0, 0.0127);
  });
});

function meanOf(sample: readonly number[]): number {
  return sample.reduce((sum, value) => sum + value, 0) / sample.length;
}
