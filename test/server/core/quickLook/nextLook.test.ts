/**
 * Which reading a quick look asks for next. Lengths in mm.
 */
import { describe, expect, test } from "vitest";
import { stringYMm } from "../../../../server/core/board/stringPaths.ts";
import type { LookedHollow, LookedRadius } from "../../../../server/core/quickLook/looked.ts";
import { nextLook } from "../../../../server/core/quickLook/nextLook.ts";
import type { Respect } from "../../../../server/core/quickLook/respects.ts";
import { parameterNames } from "../../../../server/core/surface/idealSurface.ts";
import { hollowOfShape } from "../../../../server/core/surface/straightedge.ts";
import { varianceOf } from "../../../../server/core/surface/surfaceUncertainty.ts";
import { near } from "../../../support/near.ts";
import { knownSurface, shapeWith, violin } from "../plainBoards.ts";

const reason = { code: "", says: "", valueMm: null, u: null, limitMm: null, origin: null, probability: null };
const open = (of: LookedHollow | LookedRadius | null): Respect => ({ certainty: "near", reason, of });

function hollow(string: "G" | "E", value: number, u: number): LookedHollow {
  const stringIndex = violin.strings.indexOf(string);
  return {
    where: `under the ${string} string`,
    stringIndex,
    yAtMm: (xMm) => stringYMm(violin, stringIndex, xMm),
    hollowMm: { value, u },
    deepestAtMm: 130,
    measuredMm: null,
    withinMm: [0.6, 0.8],
  };
}

const radius = (xMm: number, value: number): LookedRadius => ({
  xMm,
  radiusMm: { value, u: 1 },
  withinMm: [40.5, 43.5],
});

describe("without a surface", () => {
  test("it is the gap of whatever is nearest to its limit, in its own uncertainty", () => {
    // 0.05 of 0.06 from its limit, 0.02 of 0.06, 0.9 of 1.
    const next = nextLook(
      [open(hollow("G", 0.65, 0.06)), open(hollow("E", 0.78, 0.06)), open(radius(20, 42.6))],
      null,
      "gap",
      violin,
    );
    expect(next?.what).toBe("gap");
    expect(next?.says).toContain("under the E string");
    expect([next?.xMm, next?.yMm]).toEqual([130, stringYMm(violin, 3, 130)]);
  });

  test("a radius is read again at its own crossline, close to the edge", () => {
    const next = nextLook([open(hollow("G", 0.65, 0.02)), open(radius(20, 43.4))], null, "gap", violin);
    expect(next?.xMm).toBe(20);
    expect(next?.yMm).toBeGreaterThan(8);
    expect(next?.says).toContain("under the template");
  });

  test("where only a place may be worn there is none", () => {
    expect(nextLook([open(null)], null, "height", violin)).toBeNull();
    expect(nextLook([], null, "height", violin)).toBeNull();
  });
});

describe("with a surface of which only the hollow under the lowest string is unsure", () => {
  const size = parameterNames.length;
  const at = parameterNames.indexOf("hollowLowestMm");
  const surface = { ...knownSurface(shapeWith()), noiseMm: 0.01 };
  surface.covariance[at * size + at] = 0.05 ** 2;

  test("it is a height in the middle of that string, and says by how much it narrows", () => {
    const next = nextLook([open(hollow("G", 0.78, 0.1))], surface, "height", violin);
    // H is 1 in the middle and 0 at the ends, the lowest string's share 1 on its path; so 0.05² shrinks to 1/(1/0.05² + 1/0.01²).
    near(next?.xMm ?? 0, 135, 1e-9);
    near(next?.yMm ?? 0, stringYMm(violin, 0, 135), 1e-9);
    expect(next?.says).toContain("from ± 0.10 mm to about ± 0.02 mm");
    const before = varianceOf(surface, (shape) => hollowOfShape(surface.plan, shape, hollow("G", 0, 1).yAtMm).hollowMm);
    near(2 * Math.sqrt(before), 0.1, 0.005);
  });
});
