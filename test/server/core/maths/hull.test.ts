/**
 * The upper hull of a profile: what a straightedge touches that is laid on it. A published hull stands in test/reference.
 */
import { describe, expect, test } from "vitest";
import { hullHeights, upperHull } from "../../../../server/core/maths/hull.ts";
import { seededRandom } from "../../../../server/core/maths/seededRandom.ts";
import { allNear } from "../../../support/near.ts";

describe("by hand", () => {
  test("a hollow profile is touched at its ends only", () => {
    expect(upperHull([0, 100, 200, 300], [0, -0.5, -0.6, 0.3])).toEqual([0, 3]);
    allNear(hullHeights([0, 100, 200, 300], [0, -0.5, -0.6, 0.3]), [0, 0.1, 0.2, 0.3], 1e-15);
  });

  test("a hump is touched where it stands", () => {
    expect(upperHull([0, 1, 2, 3], [0, -1, 1, 0])).toEqual([0, 2, 3]);
    allNear(hullHeights([0, 1, 2, 3], [0, -1, 1, 0]), [0, 0.5, 1, 0], 1e-15);
  });

  test("a convex profile is touched everywhere", () => {
    expect(upperHull([0, 1, 2, 3, 4], [0, 3, 4, 3, 0])).toEqual([0, 1, 2, 3, 4]);
  });

  test("a straight profile has two corners and no gap", () => {
    expect(upperHull([0, 1, 2, 3], [0, 2, 4, 6])).toEqual([0, 3]);
    allNear(hullHeights([0, 1, 2, 3], [0, 2, 4, 6]), [0, 2, 4, 6], 0);
  });

  test("of several heights at one place the highest counts, at either end and between", () => {
    const x = [0, 0, 0, 1, 1, 2, 2];
    const z = [1, 3, 2, 9, 5, 0, 4];
    expect(upperHull(x, z)).toEqual([1, 3, 6]);
    allNear(hullHeights(x, z), [3, 3, 3, 9, 9, 4, 4], 0);
  });

  test("one reading, and readings at one place, are their own hull", () => {
    expect(upperHull([5], [7])).toEqual([0]);
    allNear(hullHeights([5], [7]), [7], 0);
    allNear(hullHeights([5, 5], [7, 6]), [7, 7], 0);
  });
});

describe("of any profile", () => {
  const random = seededRandom(4);
  const x = Float64Array.from({ length: 200 }, () => random.uniform()).sort();
  const z = x.map(() => random.normal());
  const heights = hullHeights(x, z);

  test("the hull never lies below the profile, and touches it at its corners", () => {
    heights.forEach((height, i) => {
      expect(height).toBeGreaterThanOrEqual(z[i]!);
    });
    for (const corner of upperHull(x, z)) expect(heights[corner]).toBe(z[corner]);
  });

  test("the hull is no higher than some chord of the profile at each place: it is the lowest that will do", () => {
    for (let i = 0; i < x.length; i += 17) {
      let highestChord = z[i]!;
      for (let a = 0; a < i; a++) {
        for (let b = i + 1; b < x.length; b++) {
          highestChord = Math.max(highestChord, z[a]! + ((z[b]! - z[a]!) * (x[i]! - x[a]!)) / (x[b]! - x[a]!));
        }
      }
      // Rounding of one interpolation.
      expect(Math.abs(heights[i]! - highestChord)).toBeLessThan(1e-12);
    }
  });

  test("a board turned end for end has the same hull", () => {
    const reversed = hullHeights(x.map((place) => 1 - place).reverse(), z.toReversed()).reverse();
    // 1 − x rounds.
    allNear(reversed, heights, 1e-9);
  });

  test("a tilt goes along: hull of the tilted profile is the tilted hull", () => {
    const tilted = hullHeights(
      x,
      z.map((height, i) => height + 3 - 2 * x[i]!),
    );
    allNear(
      tilted,
      heights.map((height, i) => height + 3 - 2 * x[i]!),
      1e-12,
    );
  });
});

test.each([
  ["no reading", [], []],
  ["heights that don't match", [0, 1], [0]],
  ["places out of order", [0, 2, 1], [0, 0, 0]],
  ["a place that is no number", [0, Number.NaN], [0, 0]],
  ["a height without end", [0, 1], [0, Infinity]],
])("%s throws", (_what, x, z) => {
  expect(() => upperHull(x, z)).toThrow(RangeError);
});
