/** How a surface's height and other quantities answer to its unknowns, waves and all. Lengths in mm. */
import { describe, expect, test } from "vitest";
import { stringYMm } from "../../../../server/core/board/stringPaths.ts";
import { formModes, noForm } from "../../../../server/core/surface/form.ts";
import { parameterNames } from "../../../../server/core/surface/idealSurface.ts";
import { hollowOfShape } from "../../../../server/core/surface/straightedge.ts";
import {
  gradientOf,
  heightGradient,
  heightVariance,
  varianceOf,
} from "../../../../server/core/surface/surfaceUncertainty.ts";
import { unwornHeightMm } from "../../../../server/core/surface/unwornSurface.ts";
import { allNear, near } from "../../../support/near.ts";
import { knownSurface, shapeWith, violin } from "../plainBoards.ts";
import { pit, seededBoard, surfaceOf, unworn, type Wear } from "./seededBoards.ts";

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

describe("what is said of a hollow holds the truth", () => {
  const strings = [0, 1, 3];

  /** Of sixty boards by three strings, on how many: their errors over one board hang together, so some hundred count by themselves. */
  function shareWithin(wear: (seed: number) => Wear): number {
    const held = Array.from({ length: 60 }, (_, k) => k + 1).flatMap((seed) => {
      const { shape, readings } = seededBoard(seed, wear(seed));
      const surface = surfaceOf(readings);
      return strings.map((string) => {
        const path = (xMm: number) => stringYMm(violin, string, xMm);
        const hollow = (s: typeof shape, form = surface.form) => hollowOfShape(surface.plan, s, path, form).hollowMm;
        const u = 2 * Math.sqrt(varianceOf(surface, hollow));
        return Math.abs(hollow(surface.shape) - hollow(shape, noForm)) <= u;
      });
    });
    return held.filter(Boolean).length / held.length;
  }

  // 95 % ± 2 % of a hundred: within 90 and 99 %.
  test("on sixty unworn boards nineteen times in twenty", () => {
    const share = shareWithin(() => unworn);
    expect(share).toBeGreaterThanOrEqual(0.9);
    expect(share).toBeLessThanOrEqual(0.99);
  });

  test("on sixty boards with a pit of 0.3 nineteen times in twenty", () => {
    const share = shareWithin((seed) =>
      pit({ xMm: 40 + ((seed * 13) % 100), yMm: -6 + ((seed * 5) % 12) }, 0.3, 25, 6),
    );
    expect(share).toBeGreaterThanOrEqual(0.9);
    expect(share).toBeLessThanOrEqual(0.99);
  });
});
