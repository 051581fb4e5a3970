/** Where a cut is counted: readings (those of one place averaged), edges beside the crosslines, the ends. Lengths in mm. */
import { describe, expect, test } from "vitest";
import { halfWidthMm } from "../../../../server/core/board/outline.ts";
import { edgePlaces, outlinePlaces, readingPlaces } from "../../../../server/core/planing/cutPlaces.ts";
import { heightMm } from "../../../../server/core/surface/idealSurface.ts";
import { near } from "../../../support/near.ts";
import { evenly, knownSurface, sevenLines, shapeWith, violin, wearAt } from "../plainBoards.ts";

const surface = knownSurface(shapeWith(), violin, 0.012);
const crosslines = evenly(5, 265, 5);
const places = sevenLines(violin, crosslines);

describe("the places over which a cut is counted", () => {
  test("are one for every place read, with the noise of one reading", () => {
    const wear = wearAt(places, surface, () => 0.1);
    const counted = readingPlaces(wear, surface);
    expect(counted).toHaveLength(35);
    counted.forEach((place, i) => {
      expect(place).toMatchObject({ xMm: places[i]!.xMm, yMm: places[i]!.yMm, uncertaintyMm: 0.012 });
      expect(place.readings).toEqual([wear.readings[i]]);
    });
  });

  test("average four readings of one place, and halve their noise", () => {
    const one = places[17]!;
    const wear = wearAt([one, one, one, one], surface, (_, i) => [0.1, 0.2, 0.2, 0.3][i]!);
    const [place, ...others] = readingPlaces(wear, surface);
    expect(others).toEqual([]);
    near(place!.presentMm, heightMm(surface.plan, surface.shape, one.xMm, one.yMm) - 0.2, 1e-12);
    near(place!.uncertaintyMm, 0.006, 1e-15);
  });

  test("hold both edges beside every crossline, unworn", () => {
    const edges = edgePlaces(crosslines, surface, violin);
    expect(edges).toHaveLength(10);
    for (const { xMm, yMm, presentMm } of edges) {
      near(Math.abs(yMm), halfWidthMm(violin, xMm), 1e-12);
      near(presentMm, heightMm(surface.plan, surface.shape, xMm, yMm), 1e-12);
    }
  });

  test("hold the whole outline: both ends from edge to edge, and both edges all along", () => {
    const outline = outlinePlaces(surface, violin);
    const across = outline.filter(({ yMm }) => Math.abs(yMm) < 1e-9);
    expect(new Set(across.map(({ xMm }) => xMm))).toEqual(new Set([0, 270]));
    for (const { xMm, yMm } of outline.filter(({ xMm }) => xMm > 0 && xMm < 270)) {
      near(Math.abs(yMm), halfWidthMm(violin, xMm), 1e-12);
    }
    const along = [...new Set(outline.map(({ xMm }) => xMm))].sort((a, b) => a - b);
    along.slice(1).forEach((xMm, i) => {
      expect(xMm - along[i]!).toBeLessThan(270 / 20);
    });
  });

  test("are as uncertain at the edges as the surface is there", () => {
    const covariance = surface.covariance.slice();
    covariance[0] = 0.004 ** 2;
    for (const { uncertaintyMm } of edgePlaces(crosslines, { ...surface, covariance }, violin)) {
      near(uncertaintyMm, 0.004, 1e-15);
    }
  });
});
