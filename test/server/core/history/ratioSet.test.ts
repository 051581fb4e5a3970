/** Fieller's set, by hand and by its definition; the published examples are in test/reference/inverseEstimation.test.ts. */
import { describe, expect, test } from "vitest";
import { ratioSet } from "../../../../server/core/history/ratioSet.ts";
import { seededRandom } from "../../../../server/core/maths/seededRandom.ts";
import { near } from "../../../support/near.ts";

const certain = (value: number) => ({ value, variance: 0 });

describe("time as depth to go over growth", () => {
  test("is a single value where both are certain", () => {
    const set = ratioSet(certain(0.3), certain(0.1), 0, 2);
    if (set.kind !== "between") throw new Error(set.kind);
    // Three roundings in the sixteenth digit, and a root of what is left of nothing: half the digits.
    near(set.from, 3, 1e-7);
    near(set.to, 3, 1e-7);
  });

  test("reaches from the fastest to the slowest growth where only growth is uncertain", () => {
    const set = ratioSet(certain(0.3), { value: 0.1, variance: 0.025 ** 2 }, 0, 2);
    if (set.kind !== "between") throw new Error(set.kind);
    // By hand: 0.3 / (0.1 ± 0.05).
    near(set.from, 2, 1e-12);
    near(set.to, 6, 1e-12);
  });

  test("has no end where growth may be none, and begins at the fastest growth", () => {
    const set = ratioSet(certain(0.3), { value: 0.02, variance: 0.05 ** 2 }, 0, 2);
    // By hand: 0.3 / (0.02 + 0.1) on one side, 0.3 / (0.02 − 0.1) on the other.
    if (set.kind !== "outside") throw new Error(set.kind);
    near(set.from, 2.5, 1e-12);
    near(set.to, -3.75, 1e-12);
  });

  test("may be anything where neither is clear of nothing", () => {
    expect(ratioSet({ value: 0.01, variance: 1 }, { value: 0.01, variance: 1 }, 0, 2)).toEqual({ kind: "any" });
  });

  test("begins somewhere and never ends where growth is just at the edge of being told", () => {
    const set = ratioSet(certain(0.3), { value: 0.1, variance: 0.05 ** 2 }, 0, 2);
    if (set.kind !== "outside") throw new Error(set.kind);
    near(set.from, 1.5, 1e-12);
    expect(set.to).toBe(Number.NEGATIVE_INFINITY);
  });

  test("holds exactly the ratios that the definition allows, whatever the covariance", () => {
    const random = seededRandom(7);
    for (let k = 0; k < 300; k++) {
      const a = { value: random.normal(), variance: random.uniform() };
      const b = { value: random.normal(), variance: random.uniform() };
      const covariance = (2 * random.uniform() - 1) * 0.9 * Math.sqrt(a.variance * b.variance);
      const set = ratioSet(a, b, covariance, 1.5);
      for (const ratio of [-30, -3, -0.7, 0, 0.4, 2, 25]) {
        const off = (a.value - ratio * b.value) ** 2;
        const allowed = 1.5 ** 2 * (a.variance - 2 * ratio * covariance + ratio ** 2 * b.variance);
        const isIn =
          set.kind === "any" ||
          (set.kind === "between" ? ratio >= set.from && ratio <= set.to : ratio <= set.to || ratio >= set.from);
        expect(isIn, `${set.kind} at ${ratio}, case ${k}`).toBe(off <= allowed);
      }
    }
  });
});
