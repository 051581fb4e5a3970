/** The mixture of noise and wear: probabilities and pulls against densities worked out another way. Lengths in mm. */
import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../../server/core/maths/seededRandom.ts";
import { wearMixture } from "../../../../server/core/surface/wearMixture.ts";
import { near } from "../../../support/near.ts";

const scales = { noiseMm: 0.01, meanWearMm: 0.12 };
const stray = 0.005;
const normal = (r: number) => Math.exp((-r * r) / (2 * 0.01 ** 2)) / (0.01 * Math.sqrt(2 * Math.PI));

/** Density of noise less an exponential wear, by Simpson's rule over the wear. */
function wornDensity(r: number): number {
  const steps = 4000;
  const reach = 0.15 + Math.max(0, -r);
  const h = reach / steps;
  let sum = 0;
  for (let i = 0; i <= steps; i++) {
    const w = i * h;
    const factor = i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2;
    sum += (factor * h * normal(r + w) * Math.exp(-w / 0.12)) / (3 * 0.12);
  }
  return sum;
}

const densityOf = (r: number, prior: number) => prior * normal(r) + (1 - prior) * wornDensity(r) + stray;
const one = (r: number, prior: number) => wearMixture(Float64Array.of(r), Float64Array.of(prior), scales, 0);

describe("a reading's probability of being unworn", () => {
  test.each([-0.3, -0.05, -0.02, -0.01, 0, 0.01, 0.02, 0.03])(
    "at %f mm from the surface is what the densities say",
    (r) => {
      for (const prior of [0.1, 0.5, 0.9]) {
        // Simpson's rule over steps of 4e-5 mm on a bell 0.01 wide: far below 1e-6.
        near(one(r, prior).unworn[0]!, (prior * normal(r)) / densityOf(r, prior), 1e-6, `prior ${prior}`);
      }
    },
  );

  test("is high on the surface, low far below it, and low far above it: a stray", () => {
    expect(one(0, 0.8).unworn[0]).toBeGreaterThan(0.95);
    expect(one(-0.1, 0.8).unworn[0]).toBeLessThan(0.001);
    expect(one(0.1, 0.8).unworn[0]).toBeLessThan(0.001);
  });

  test("rises with the prior", () => {
    const seen = [0.1, 0.3, 0.5, 0.7, 0.9].map((prior) => one(-0.02, prior).unworn[0]!);
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
  });
});

describe("the pull of a reading on the surface", () => {
  test.each([-0.2, -0.04, -0.015, 0, 0.012, 0.03])("at %f mm is the slope of its log density, turned round", (r) => {
    const h = 1e-5;
    const byDifference = (-(0.01 ** 2) * (Math.log(densityOf(r + h, 0.7)) - Math.log(densityOf(r - h, 0.7)))) / (2 * h);
    // Central differences: h² of a third derivative of some 1/0.01³; and the integral's own 1e-9 over 2h.
    near(one(r, 0.7).pullMm[0]!, byDifference, 1e-6);
  });

  test("is nothing worth mentioning where the reading is worn for sure, or a stray far above", () => {
    expect(Math.abs(one(-0.3, 0.7).pullMm[0]!)).toBeLessThan(0.001);
    expect(Math.abs(one(0.3, 0.7).pullMm[0]!)).toBeLessThan(0.001);
  });

  test("stays finite for readings far off, however fine the noise", () => {
    const fine = { noiseMm: 1e-6, meanWearMm: 1e-5 };
    const { pullMm, unworn } = wearMixture(Float64Array.of(-2, 2, 0.0001), Float64Array.of(0.5, 0.5, 0.5), fine, 0);
    for (const entry of [...pullMm, ...unworn]) expect(Number.isFinite(entry)).toBe(true);
  });
});

describe("what a reading tells of the surface", () => {
  test.each([-0.2, -0.06, -0.02, -0.01, 0, 0.005, 0.012])(
    "at %f mm is the bend of its log density, turned round, or nothing where that bends the other way",
    (r) => {
      for (const prior of [0.3, 0.7, 0.95]) {
        const h = 2e-4;
        const log = (at: number): number => Math.log(densityOf(at, prior));
        const bend = (log(r + h) - 2 * log(r) + log(r - h)) / h ** 2;
        // Second differences: h²/12 of a fourth derivative of some 10/0.01⁴ makes 3e-4 of 1/s²; the integral's own 1e-9 over h² far less.
        near(one(r, prior).information[0]!, Math.max(0, -(0.01 ** 2) * bend), 1e-3, `prior ${prior}`);
      }
    },
  );

  test("is all where it lies on the surface of an unworn board, and nothing where it is worn for sure", () => {
    expect(one(0, 0.99).information[0]).toBeGreaterThan(0.98);
    expect(one(-0.3, 0.7).information[0]).toBeLessThan(0.001);
  });

  test("is less than its probability of being unworn where wear is hard to tell from noise", () => {
    const { information, unworn } = one(-0.02, 0.8);
    expect(information[0]).toBeLessThan(unworn[0]! - 0.2);
  });
});

test("from a fair start the two scales of a board of noise and wear are found", () => {
  const random = seededRandom(8);
  const residuals = Float64Array.from(
    { length: 20_000 },
    (_, i) => 0.01 * random.normal() + (i % 4 === 0 ? 0.12 * Math.log(1 - random.uniform()) : 0),
  );
  const prior = new Float64Array(residuals.length).fill(0.75);
  let found = { noiseMm: 0.02, meanWearMm: 0.2 };
  for (let round = 0; round < 40; round++) found = wearMixture(residuals, prior, found, 0).scales;
  // 15,000 unworn: the noise is known to 0.6 %; 5,000 worn: their mean to 1.4 %. The strays' density takes a little of either.
  near(found.noiseMm, 0.01, 0.0004);
  near(found.meanWearMm, 0.12, 0.01);
});
