/** What lies near: weights worked out by hand, and every pair against a search through all. Distances in spacings. */
import { expect, test } from "vitest";
import { nearby } from "../../../../server/core/maths/nearby.ts";
import { seededRandom } from "../../../../server/core/maths/seededRandom.ts";
import { near } from "../../../support/near.ts";

test("a position counts 1 to itself, exp(-0.7) to its neighbour, exp(-2.8) two away and nothing beyond", () => {
  const found = nearby([0, 1, 2, 2.001], [0, 0, 0, 0])(0);
  const weightOf = new Map(found.map(({ index, weight }) => [index, weight]));
  expect([...weightOf.keys()].sort()).toEqual([0, 1, 2]);
  expect(weightOf.get(0)).toBe(1);
  // Four figures from a table of exponentials: half a unit of the last.
  near(weightOf.get(1)!, 0.4966, 5e-5, "at 1");
  near(weightOf.get(2)!, 0.0608, 5e-5, "at 2");
});

test("diagonally counts as far as it is: a root of two", () => {
  const [diagonal] = nearby([0, 1], [0, -1])(0).filter(({ index }) => index === 1);
  // exp(-1.4), four figures.
  near(diagonal!.weight, 0.2466, 5e-5);
});

test("a position read twice counts twice", () => {
  expect(nearby([3, 3], [-1, -1])(0).map(({ weight }) => weight)).toEqual([1, 1]);
});

test("of three hundred positions on both sides of nothing each finds all that a search through all finds", () => {
  const random = seededRandom(4);
  const u = Float64Array.from({ length: 300 }, () => 20 * random.uniform() - 10);
  const v = Float64Array.from({ length: 300 }, () => 12 * random.uniform() - 6);
  const near = nearby(u, v);
  u.forEach((_, i) => {
    const all = [...u.keys()].filter((j) => Math.hypot(u[j]! - u[i]!, v[j]! - v[i]!) <= 2);
    expect(
      near(i)
        .map(({ index }) => index)
        .sort((a, b) => a - b),
    ).toEqual(all);
  });
});
