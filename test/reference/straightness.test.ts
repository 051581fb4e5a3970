/**
 * A straight line below seven heights: a printed straightness measurement (figures and source: straightness.json).
 */
import { test } from "vitest";
import { near } from "../support/near.ts";
import { targetBelow } from "../support/targetBelow.ts";
import set from "./straightness.json" with { type: "json" };

const optimum = targetBelow(
  set.positions.map((position) => [1, position]),
  set.heightUm,
);
const cutUm = set.heightUm.map((height, i) => height - optimum.x[0]! - optimum.x[1]! * set.positions[i]!);

test("the largest cut is the printed straightness, 3 µm", () => {
  // Readings are exact halves: rounding only.
  near(optimum.objective, set.printedStraightnessUm, 1e-12);
});

test("two lows touch and the high lies between them, which proves the line", () => {
  for (const i of set.touches) near(cutUm[i]!, 0, 1e-12, "gap at a low");
  for (const i of set.highestAt) near(cutUm[i]!, 3, 1e-12, "cut at the high");
});
