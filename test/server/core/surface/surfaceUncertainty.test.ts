/** How a surface's height and other quantities answer to its unknowns, waves and all. Lengths in mm. */
import { expect, test } from "vitest";
import { formModes } from "../../../../server/core/surface/form.ts";
import { parameterNames } from "../../../../server/core/surface/idealSurface.ts";
import {
  gradientOf,
  heightGradient,
  heightVariance,
  varianceOf,
} from "../../../../server/core/surface/surfaceUncertainty.ts";
import { unwornHeightMm } from "../../../../server/core/surface/unwornSurface.ts";
import { allNear, near } from "../../../support/near.ts";
import { knownSurface, shapeWith, violin } from "../plainBoards.ts";

const size = parameterNames.length + formModes;

/** A board with waves, each unknown uncertain by itself. */
function wavy(standardU: (index: number) => number) {
  const form = Float64Array.from({ length: formModes }, (_, j) => 0.004 * Math.cos(j));
  const covariance = new Float64Array(size * size);
  for (let j = 0; j < size; j++) covariance[j * size + j] = standardU(j) ** 2;
  return { ...knownSurface(shapeWith({ crownNutMm: 0.6, crownEndMm: -0.4 }), violin), form, covariance };
}

test("the height answers to every parameter and wave as differences of the height say", () => {
  const surface = wavy((j) => (j === 1 || j >= 9 ? 1e-5 : 1e-3));
  const by = gradientOf(surface, (shape, form) => unwornHeightMm({ ...surface, shape, form }, 87, 6.5));
  // Central differences: rounding of heights near 10 over steps of 1e-5, 1e-10; the bend of the arc over 1e-3 far less.
  allNear(heightGradient(surface, 87, 6.5), by, 1e-8, "unknown");
});

test("an unknown that is known for sure moves nothing", () => {
  const surface = wavy((j) => (j === parameterNames.length + 4 ? 0 : 1e-3));
  const by = gradientOf(surface, (shape, form) => unwornHeightMm({ ...surface, shape, form }, 87, 6.5));
  expect(by[parameterNames.length + 4]).toBe(0);
});

test("waves known to 0.003 each leave the height at the nut under a middle line uncertain by the root of their squares", () => {
  const surface = wavy((j) => (j < parameterNames.length ? 0 : 0.003));
  // Seven waves, across 1, 0 and −0.4 on the centreline: 7·(1 + 0.16).
  near(Math.sqrt(heightVariance(surface, 0, 0)), 0.003 * Math.sqrt(7 * 1.16), 1e-12);
});

test("what two waves have in common counts: a sum of two that rise together is surer of their difference", () => {
  const surface = wavy(() => 0);
  const [one, other] = [parameterNames.length, parameterNames.length + 3];
  surface.covariance[one * size + one] = 0.003 ** 2;
  surface.covariance[other * size + other] = 0.003 ** 2;
  surface.covariance[one * size + other] = 0.003 ** 2;
  surface.covariance[other * size + one] = 0.003 ** 2;
  near(
    varianceOf(surface, (_, form) => form[0]! - form[3]!),
    0,
    1e-15,
  );
  near(
    varianceOf(surface, (_, form) => form[0]! + form[3]!),
    4 * 0.003 ** 2,
    1e-15,
  );
});
