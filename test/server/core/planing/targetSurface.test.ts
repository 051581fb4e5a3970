/** The placed target: it shows the hollows asked for, and its derivatives are what differences give. Lengths in mm. */
import { describe, expect, test } from "vitest";
import { stringYMm } from "../../../../server/core/board/stringPaths.ts";
import {
  ownFrame,
  type Placement,
  placementNames,
  targetGradient,
  targetShape,
  workshopFrame,
} from "../../../../server/core/planing/targetSurface.ts";
import { heightMm } from "../../../../server/core/surface/idealSurface.ts";
import { hollowOfShape } from "../../../../server/core/surface/straightedge.ts";
import { near } from "../../../support/near.ts";
import { instrumentFrom } from "../board/boards.ts";
import { knownSurface, shapeWith, violin, violinSettings } from "../plainBoards.ts";

const placement: Placement = {
  heightMm: -0.2,
  pitch: 0.001,
  crownNutMm: 0.3,
  crownEndMm: -0.4,
  radiusNutMm: 41,
  radiusMiddleMm: 42,
  radiusEndMm: 43.5,
  hollowLowestMm: 0.75,
  hollowHighestMm: 0.45,
};
const faceted = instrumentFrom({
  ...violinSettings,
  flat_ridge_nut: "-4",
  flat_ridge_end: "-7",
  flat_slope_nut: "0.2",
  flat_slope_end: "0.3",
});

const boards = [
  { board: "a violin", instrument: violin, deepest: "0.5" },
  {
    board: "a violin hollow nearest the nut",
    instrument: instrumentFrom({ ...violinSettings, hollow_deepest: "0.4" }),
  },
  {
    board: "a violin hollow towards the end",
    instrument: instrumentFrom({ ...violinSettings, hollow_deepest: "0.62" }),
  },
  { board: "a violin with a flat facet", instrument: faceted },
] as const;

describe.each(boards)("a target placed on $board", ({ instrument }) => {
  const frame = workshopFrame(knownSurface(shapeWith({ crownNutMm: 0.5, crownEndMm: 0.2 }), instrument), instrument);
  const shape = targetShape(frame, placement);
  const shownMm = (index: number, placed: Placement = placement) =>
    hollowOfShape(frame.unworn.plan, targetShape(frame, placed), (xMm) => stringYMm(instrument, index, xMm)).hollowMm;

  test("shows the hollows that were asked for, under the outer strings", () => {
    // Solved to 1e-9, or as far as twelve rounds bring it.
    near(shownMm(0), 0.75, 1e-8);
    near(shownMm(3), 0.45, 1e-8);
  });

  test("keeps the radii and the deepest point it was given, and lies where it was placed", () => {
    expect(shape.radiusEndMm).toBe(43.5);
    expect(shape.hollowDeepest).toBe(instrument.hollowDeepest.value);
    near(shape.heightMm, 9.8, 1e-12);
    near(shape.crownNutMm, 0.8, 1e-12);
    near(shape.crownEndMm, -0.2, 1e-12);
  });

  test.each(placementNames)("moves with its %s as its derivative says", (name) => {
    const gradientAt = targetGradient(frame, shape);
    const gradient = new Float64Array(placementNames.length + 2);
    const step = name === "pitch" ? 1e-6 : 1e-4;
    const j = placementNames.indexOf(name);
    for (const [xMm, yMm] of [
      [5, -9],
      [90, 0],
      [135, 12],
      [200, -13],
      [265, 18],
    ] as const) {
      gradientAt({ xMm, yMm }, gradient, 2);
      const moved = (by: number) =>
        heightMm(frame.unworn.plan, targetShape(frame, { ...placement, [name]: placement[name] + by }), xMm, yMm);
      const byDifference = (moved(step) - moved(-step)) / (2 * step);
      // The straightedge's deepest place is found by a parabola through stations 1/48 apart, the derivative takes it as exact:
      // some (1/48)² of the answer; solving to 1e-9 over a step of 2e-4 leaves 1e-5.
      near(gradient[2 + j]!, byDifference, 2e-3 * Math.max(1, Math.abs(byDifference)), `at ${xMm}, ${yMm}`);
    }
  });
});

test("the workshop's facet slopes are used where given, the board's own where not", () => {
  const surface = knownSurface(shapeWith({ facetSlopeNut: 0.11, facetSlopeEnd: 0.12 }), faceted);
  const given = workshopFrame(surface, faceted);
  expect([given.facetSlopeNut, given.facetSlopeEnd]).toEqual([0.2, 0.3]);
  const own = workshopFrame(surface, instrumentFrom({ ...violinSettings, flat_ridge_nut: "-4", flat_ridge_end: "-7" }));
  expect([own.facetSlopeNut, own.facetSlopeEnd]).toEqual([0.11, 0.12]);
});

test("the board's own shape renewed keeps its own deepest point", () => {
  expect(ownFrame(knownSurface(shapeWith({ hollowDeepest: 0.44 }))).hollowDeepest).toBe(0.44);
});

test.each([
  [0.3, 0.2],
  [0.1, 0.1],
  [0.02, 0.02],
  [3, 2],
])("hollows of %f and %f are reached, however flat or deep", (lowest, highest) => {
  const frame = workshopFrame(knownSurface(shapeWith()), violin);
  const shape = targetShape(frame, { ...placement, hollowLowestMm: lowest, hollowHighestMm: highest });
  const shown = (index: number) =>
    hollowOfShape(frame.unworn.plan, shape, (xMm) => stringYMm(violin, index, xMm)).hollowMm;
  near(shown(0), lowest, 1e-6);
  near(shown(3), highest, 1e-6);
});

test("no hollow at all is reached as nearly as a straightedge can show none", () => {
  // Camber and hollow bend differently along a path, so what is left is a hump of some 0.004 mm or a hollow of that size.
  const frame = workshopFrame(knownSurface(shapeWith()), violin);
  const shape = targetShape(frame, { ...placement, hollowLowestMm: 0, hollowHighestMm: 0 });
  near(hollowOfShape(frame.unworn.plan, shape, (xMm) => stringYMm(violin, 0, xMm)).hollowMm, 0, 0.01);
});
