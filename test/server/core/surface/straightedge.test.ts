/** A straightedge laid on profiles drawn by hand. Heights in mm. */
import { describe, expect, test } from "vitest";
import { camberMm, surfacePlan } from "../../../../server/core/surface/idealSurface.ts";
import { hollowOfShape, layStraightedge } from "../../../../server/core/surface/straightedge.ts";
import { allNear, near } from "../../../support/near.ts";
import { evenly, shapeWith, violin } from "../plainBoards.ts";

const profiles = [
  { board: "hollow in the middle", heights: [0, -0.3, -0.6, -0.2, 0], hollow: 0.6, at: 50 },
  { board: "hollow, its bridge end higher", heights: [0, 0, 0, 0, 1], hollow: 0.75, at: 75 },
  { board: "straight", heights: [1, 2, 3, 4, 5], hollow: 0, at: 0 },
  { board: "humped in the middle", heights: [0, 0.2, 0.5, 0.2, 0], hollow: -0.5, at: 50 },
  { board: "with a bump at one place", heights: [0, 0, 0.4, 0, 0], hollow: -0.4, at: 50 },
  { board: "more hollow than humped", heights: [0, 0.1, 0, -0.8, 0], hollow: 0.8 + 0.1 / 3, at: 75 },
  { board: "more humped than hollow", heights: [0, 0.8, 0, -0.1, 0], hollow: -0.8, at: 25 },
  { board: "fallen off at the bridge end", heights: [0, 0, 0, 0, -1], hollow: -0.75, at: 75 },
  { board: "fallen off at the nut", heights: [-1, 0, 0, 0, 0], hollow: -0.75, at: 25 },
] as const;

describe("a straightedge laid along a board", () => {
  const places = [0, 25, 50, 75, 100];

  test.each(profiles)("that is $board shows $hollow mm at $at", ({ heights, hollow, at }) => {
    const laid = layStraightedge(places, heights);
    // Hand figures, exact but for the rounding of the chord.
    near(laid.hollowMm, hollow, 1e-12);
    near(laid.atMm, at, 1e-12);
  });

  test.each(profiles)("that is $board never enters it, and touches it", ({ heights }) => {
    const { undersideMm } = layStraightedge(places, heights);
    const gaps = undersideMm.map((z, i) => z - heights[i]!);
    expect(Math.min(...gaps)).toBe(0);
  });

  test("needs no more than two places, between which nothing is hollow", () => {
    expect(layStraightedge([0, 10], [1, 5])).toEqual({ hollowMm: 0, atMm: 0, undersideMm: [1, 5] });
  });

  test("shows the same when the board is tilted or raised in the gauge", () => {
    for (const { heights, hollow } of profiles) {
      const tilted = heights.map((z, i) => z + 7 + 0.013 * places[i]!);
      near(layStraightedge(places, tilted).hollowMm, hollow, 1e-12);
    }
  });
});

describe("the hollow of a shape", () => {
  const plan = surfacePlan(violin);
  const flat = { radiusNutMm: 1e7, radiusMiddleMm: 1e7, radiusEndMm: 1e7 };

  test("without camber is the hollow's coefficient on each path, at the deepest point", () => {
    const shape = shapeWith({ ...flat, hollowLowestMm: 0.9, hollowHighestMm: 0.3 });
    const { lengthMm, lowest } = plan;
    const onLowest = hollowOfShape(
      plan,
      shape,
      (xMm) => lowest.nutMm + ((lowest.endMm - lowest.nutMm) * xMm) / lengthMm,
    );
    // Half-way is a station; the camber of a radius of ten kilometres is 1e-5 mm.
    near(onLowest.hollowMm, 0.9, 2e-5);
    near(onLowest.atMm, 135, 1e-2);
    near(hollowOfShape(plan, shape, () => 0).hollowMm, 0.6, 2e-3);
  });

  test("is found between the stations where the deepest point lies there", () => {
    const u0 = 0.5 + 1 / 96;
    const shape = shapeWith({ ...flat, hollowLowestMm: 0.8, hollowHighestMm: 0.8, hollowDeepest: u0 });
    const { hollowMm, atMm } = hollowOfShape(plan, shape, () => 0);
    // A parabola through three stations 1/48 apart: what it misses is of third order, under 1e-5 of 0.8 here.
    near(hollowMm, 0.8, 1e-5);
    near(atMm, u0 * 270, 0.05);
  });

  test("on a cylinder along fanning strings is less than the coefficient by the camber's own bulge", () => {
    const along = (nutMm: number, endMm: number) => (xMm: number) => nutMm + ((endMm - nutMm) * xMm) / 270;
    const bulge = (nutMm: number, endMm: number) =>
      camberMm((nutMm + endMm) / 2, 42) - (camberMm(nutMm, 42) + camberMm(endMm, 42)) / 2;
    const hollowless = shapeWith({ hollowLowestMm: 0, hollowHighestMm: 0 });
    const path = along(8.25, 15.5);
    // Published makers' survey: 0.178 mm for outer strings 16.5 apart at the nut and 31 at the board's end on R 42.
    near(bulge(8.25, 15.5), 0.178, 5e-4);
    // Deepest not quite half-way: the hump is a hair more than at mid-length.
    near(hollowOfShape(plan, hollowless, path).hollowMm, -bulge(8.25, 15.5), 1e-3);
  });

  test("turns to a hump of the same size when the shape is turned upside down along", () => {
    const hollow = shapeWith({ ...flat, hollowLowestMm: 0.4, hollowHighestMm: 0.4 });
    const hump = shapeWith({ ...flat, hollowLowestMm: -0.4, hollowHighestMm: -0.4 });
    near(hollowOfShape(plan, hump, () => 0).hollowMm, -hollowOfShape(plan, hollow, () => 0).hollowMm, 1e-9);
  });
});

test("the underside of a laid straightedge is given at every distance asked", () => {
  const places = evenly(0, 270, 7);
  const { undersideMm } = layStraightedge(places, [0, -1, -2, 1, -1, -1, 0]);
  // Two chords, from the nut to the hump half-way and on to the end.
  allNear(undersideMm, [0, 1 / 3, 2 / 3, 1, 2 / 3, 1 / 3, 0], 1e-12);
});
