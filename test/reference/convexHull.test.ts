/**
 * The laid straightedge's hull against a published convex hull of twenty points (figures and source: convexHull.json).
 */
import { expect, test } from "vitest";
import { hullHeights, upperHull } from "../../server/core/maths/hull.ts";
import set from "./convexHull.json" with { type: "json" };

const ordered = set.points.toSorted(([ax, az], [bx, bz]) => ax! - bx! || az! - bz!);
const x = ordered.map(([place]) => place!);
const z = ordered.map(([, height]) => height!);

test("the upper hull is the published hull's upper chain", () => {
  expect(upperHull(x, z).map((i) => [x[i], z[i]])).toEqual(set.upperChain);
});

test("turned upside down, it is the lower chain", () => {
  const upsideDown = z.map((height) => -height);
  expect(upperHull(x, upsideDown).map((i) => [x[i], z[i]])).toEqual(set.lowerChain);
});

test("no point stands above the hull", () => {
  hullHeights(x, z).forEach((height, i) => {
    expect(height).toBeGreaterThanOrEqual(z[i]!);
  });
});
