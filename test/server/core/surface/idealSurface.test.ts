/** The ideal surface: by hand, and its derivatives against differences. */
import { describe, expect, test } from "vitest";
import { unwornSurface } from "../../../../data/make/shape.ts";
import {
  camberMm,
  heightMm,
  hollowShare,
  parameterNames,
  radiusAtMm,
  slopes,
  surfacePlan,
  twistMm,
  writeHeightGradient,
} from "../../../../server/core/surface/idealSurface.ts";
import { near } from "../../../support/near.ts";
import { syntheticBoard } from "../../../support/syntheticBoards.ts";
import { instrumentFrom } from "../board/boards.ts";
import { evenly, readingsAt, shapeWith, violin, violinSettings } from "../plainBoards.ts";
import { places, rivalsOf, takenFrom } from "./seededBoards.ts";

const plan = surfacePlan(violin);
const withFacet = surfacePlan(instrumentFrom({ ...violinSettings, flat_ridge_nut: "-4", flat_ridge_end: "-8" }));

describe("the camber", () => {
  test("of an arc is the height of its segment: 3 : 4 : 5 and 5 : 12 : 13", () => {
    // Exact in whole numbers; the root may round in its last place.
    near(camberMm(3, 5), -1, 1e-14);
    near(camberMm(-4, 5), -2, 1e-14);
    near(camberMm(5, 13), -1, 1e-14);
    expect(camberMm(0, 42)).toBe(0);
  });

  test("across the end of a violin's board, 42 wide on R 42, is 5.63 mm", () => {
    // R − √(R² − 21²) = 42 (1 − √3/2) = 5.62693…, by hand.
    near(camberMm(21, 42), -42 * (1 - Math.sqrt(3) / 2), 1e-12);
    near(camberMm(21, 42), -5.627, 5e-4);
  });
});

describe("the share of the hollow", () => {
  const deepestPoints = [0.3, 0.35, 0.4, 0.45, 0.5, 0.55, 0.6, 0.64, 0.7];

  test.each(deepestPoints)("is nothing at both ends and all at its deepest point, %f", (u0) => {
    near(hollowShare(0, u0), 0, 0);
    near(hollowShare(1, u0), 0, 0);
    // u0(1 − u0) over u0² + u0 − 2u0²: the same number twice, but for rounding.
    near(hollowShare(u0, u0), 1, 1e-14);
  });

  test.each(deepestPoints)("is concave and nowhere more than all, deepest at %f", (u0) => {
    const step = 1 / 2000;
    for (let u = step; u < 1 - step / 2; u += step) {
      const bend = hollowShare(u - step, u0) - 2 * hollowShare(u, u0) + hollowShare(u + step, u0);
      // Its flattest bend in this range is some −0.5·step² = −1e-7; rounding is some 1e-16.
      expect(bend, `at ${u}`).toBeLessThan(-1e-8);
      expect(hollowShare(u, u0)).toBeLessThanOrEqual(1 + 1e-14);
    }
  });

  test("is the parabola 4u(1 − u) when deepest half-way, and mirrors when the deepest point does", () => {
    for (const u of evenly(0, 1, 21)) {
      near(hollowShare(u, 0.5), 4 * u * (1 - u), 1e-14);
      near(hollowShare(u, 0.4), hollowShare(1 - u, 0.6), 1e-14);
    }
  });
});

describe("the height", () => {
  test("at the crown of a level cylinder is the height given, less the hollow half-way", () => {
    const shape = shapeWith({ hollowLowestMm: 0.8, hollowHighestMm: 0.4 });
    near(heightMm(plan, shape, 0, 0), 10, 1e-12);
    // Half-way along and midway between the strings: the mean of both hollows, whole.
    near(heightMm(plan, shape, 135, 0), 10 - 0.6, 1e-12);
    near(heightMm(plan, shape, 270, 0), 10, 1e-12);
  });

  test("rises with the pitch and follows the crown", () => {
    const shape = shapeWith({ pitch: 0.002, crownNutMm: 1, crownEndMm: -2, hollowLowestMm: 0, hollowHighestMm: 0 });
    near(heightMm(plan, shape, 0, 1), 10, 1e-12);
    near(heightMm(plan, shape, 270, -2), 10.54, 1e-12);
    near(heightMm(plan, shape, 135, -0.5), 10.27, 1e-12);
    near(heightMm(plan, shape, 0, 13), 10 + camberMm(12, 42), 1e-12);
  });

  test("is the same on a mirrored board at the mirrored place", () => {
    const shape = shapeWith({ crownNutMm: 0.7, crownEndMm: -1.1, hollowLowestMm: 0.9, hollowHighestMm: 0.2 });
    const mirrored = { ...shape, crownNutMm: -0.7, crownEndMm: 1.1, hollowLowestMm: 0.2, hollowHighestMm: 0.9 };
    for (const xMm of evenly(0, 270, 10)) {
      for (const yMm of evenly(-15, 15, 7)) {
        near(heightMm(plan, mirrored, xMm, -yMm), heightMm(plan, shape, xMm, yMm), 1e-13);
      }
    }
  });

  test("on a facet is a straight line across that joins the arc at the ridge", () => {
    const shape = shapeWith({ facetSlopeNut: 0.2, facetSlopeEnd: 0.3, hollowLowestMm: 0, hollowHighestMm: 0 });
    // Ridge at −4 at the nut, −8 at the end.
    near(heightMm(withFacet, shape, 0, -4), 10 + camberMm(4, 42), 1e-13);
    near(heightMm(withFacet, shape, 0, -10), 10 + camberMm(4, 42) - 6 * 0.2, 1e-13);
    near(heightMm(withFacet, shape, 270, -18), 10 + camberMm(8, 42) - 10 * 0.3, 1e-13);
    near(heightMm(withFacet, shape, 135, -6 - 5), 10 + camberMm(6, 42) - 5 * 0.25, 1e-13);
    near(heightMm(withFacet, shape, 135, 6), heightMm(plan, shape, 135, 6), 0);
  });
});

test("the radius passes through nut, middle and end, and is a cone's where the middle is their mean", () => {
  const shape = shapeWith({ radiusNutMm: 40, radiusMiddleMm: 43, radiusEndMm: 48 });
  near(radiusAtMm(shape, 0), 40, 1e-13);
  near(radiusAtMm(shape, 0.5), 43, 1e-13);
  near(radiusAtMm(shape, 1), 48, 1e-13);
  near(radiusAtMm(shapeWith({ radiusNutMm: 40, radiusMiddleMm: 44, radiusEndMm: 48 }), 0.25), 42, 1e-13);
});

describe("the twist", () => {
  test("is positive where the treble side rises towards the bridge", () => {
    const shape = shapeWith({ crownNutMm: -1, crownEndMm: 1 });
    const tilt = (xMm: number) => heightMm(plan, shape, xMm, 10) - heightMm(plan, shape, xMm, -10);
    expect(tilt(270)).toBeGreaterThan(tilt(0));
    expect(twistMm(shape, 42)).toBeGreaterThan(0);
    expect(twistMm(shapeWith({ crownNutMm: 1, crownEndMm: -1 }), 42)).toBeLessThan(0);
  });

  test("of a crown that runs from −1 to 1 on R 42 is 2 mm over 42", () => {
    near(twistMm(shapeWith({ crownNutMm: -1, crownEndMm: 1 }), 42), 2, 1e-13);
  });
});

describe("derivatives", () => {
  const shape = shapeWith({
    pitch: 0.003,
    crownNutMm: 0.8,
    crownEndMm: -0.6,
    radiusNutMm: 40,
    radiusMiddleMm: 43,
    radiusEndMm: 45,
    hollowLowestMm: 0.9,
    hollowDeepest: 0.46,
    facetSlopeNut: 0.2,
    facetSlopeEnd: 0.3,
  });
  const steps = { heightMm: 1e-3, pitch: 1e-5, hollowDeepest: 1e-4, facetSlopeNut: 1e-3, facetSlopeEnd: 1e-3 };

  for (const [name, board] of [
    ["a plain board", plan],
    ["a board with a flat facet", withFacet],
  ] as const) {
    test.each(parameterNames)(`of the height of ${name} by %s are what differences give`, (parameter) => {
      const j = parameterNames.indexOf(parameter);
      const step = parameter in steps ? steps[parameter as keyof typeof steps] : 1e-3;
      const gradient = new Float64Array(parameterNames.length + 3);
      for (const xMm of [3, 70, 135, 200, 268]) {
        for (const yMm of [-14, -9, -2, 0, 5, 11]) {
          const moved = (by: number) => heightMm(board, { ...shape, [parameter]: shape[parameter] + by }, xMm, yMm);
          const byDifference = (moved(step) - moved(-step)) / (2 * step);
          writeHeightGradient(board, shape, xMm, yMm, gradient, 3);
          // Central differences err by step² × the third derivative (below 1e-7), and by 10 mm × 1e-16 / step.
          near(gradient[3 + j]!, byDifference, 1e-6 * Math.max(1, Math.abs(byDifference)), `at ${xMm}, ${yMm}`);
        }
      }
    });
  }

  test("along and across are the slopes: on the arc, distance from the crown over height above the centre", () => {
    const level = shapeWith({ pitch: 0.002, hollowLowestMm: 0, hollowHighestMm: 0 });
    const { alongX, alongY } = slopes(plan, level, 100, 12);
    // Rounding of 10 mm over a step of 0.02. Across: step² / 6 × the third derivative, 3·42²·12 / 40.2⁵ = 6e-4: 1e-8.
    near(alongX, 0.002, 1e-10);
    near(alongY, -12 / Math.sqrt(42 ** 2 - 12 ** 2), 2e-8);
  });
});

test("a board that is turned bodily, hollow and all, and twisted evenly along is one of these shapes", () => {
  const ideal = syntheticBoard("violin", "7 x 13", 44, false);
  const { plan, shape } = ideal;
  const madeMm = unwornSurface(plan, {
    ...shape,
    rollDeg: 3,
    twistDeg: 2,
    deepestAt: 0.5,
    radiusNutMm: 40,
    radiusEndMm: 44,
  });
  const { unworn } = rivalsOf(takenFrom(readingsAt(places, ({ xMm, yMm }) => madeMm(xMm, yMm))));
  // Seen: 0.00007, of the second order in the roll. Were the crown without the hollow's own share, (hollow · roll) · y / R, 0.0009 would be left.
  near(unworn.scales.noiseMm, 0, 2e-4);
});
