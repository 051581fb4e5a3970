/** What one more reading leaves of a variance: against the normal equations with that reading put in. Lengths in mm. */
import { describe, expect, test } from "vitest";
import { squareInverse } from "../../../../server/core/maths/squareInverse.ts";
import { parameterNames, type SurfaceShape } from "../../../../server/core/surface/idealSurface.ts";
import { readingsThatNarrow } from "../../../../server/core/surface/oneMoreReading.ts";
import { heightGradient, varianceOf } from "../../../../server/core/surface/surfaceUncertainty.ts";
import type { UnwornSurface } from "../../../../server/core/surface/unwornSurface.ts";
import type { Place } from "../../../../server/core/units.ts";
import { near } from "../../../support/near.ts";
import { evenly, knownSurface, sevenLines, shapeWith, violin } from "../plainBoards.ts";

const noiseMm = 0.01;
const size = parameterNames.length;
/** Without a facet its two slopes, the last parameters, are no parameters. */
const free = size - 2;
const flat = knownSurface(shapeWith(), violin, noiseMm);
const read = sevenLines(violin, evenly(5, 265, 11));

/** A surface known as well as readings at these places tell it: s² (XᵀX)⁻¹, column by column scaled to be inverted safely. */
function readAt(places: readonly Place[]): UnwornSurface {
  const rows = places.map(({ xMm, yMm }) => heightGradient(flat, xMm, yMm).slice(0, free));
  const scale = Array.from({ length: free }, (_, i) => Math.hypot(...rows.map((row) => row[i]!)));
  const normal = Float64Array.from({ length: free * free }, (_, at) => {
    const [i, j] = [Math.floor(at / free), at % free];
    return rows.reduce((sum, row) => sum + (row[i]! / scale[i]!) * (row[j]! / scale[j]!), 0);
  });
  const inverse = squareInverse(normal, free);
  if (inverse === null) throw new Error("these places don't tell the surface");
  const covariance = new Float64Array(size * size);
  for (let i = 0; i < free; i++) {
    for (let j = 0; j < free; j++) {
      covariance[i * size + j] = (noiseMm ** 2 * inverse[i * free + j]!) / (scale[i]! * scale[j]!);
    }
  }
  return { ...flat, covariance };
}

const before = readAt(read);
const hollow = (shape: SurfaceShape): number => shape.hollowLowestMm;
const radius = (shape: SurfaceShape): number => shape.radiusMiddleMm;
const candidates: readonly Place[] = evenly(4, 266, 9).flatMap((xMm) =>
  [-14, -5, 0, 8, 15].map((yMm) => ({ xMm, yMm })),
);

describe("one more reading", () => {
  test.each([
    ["the hollow under the lowest string", hollow],
    ["the radius in the middle", radius],
  ])("leaves of the variance of %s what the readings with it among them leave", (_, quantity) => {
    for (const place of [candidates[0]!, candidates[17]!, candidates[44]!]) {
      const [taken] = readingsThatNarrow(before, quantity, [place], 1);
      const again = varianceOf(readAt([...read, place]), quantity);
      // The normal equations lose some five of sixteen digits.
      near(taken!.variance / again, 1, 1e-8, "variance left, as a share");
    }
  });

  test("is laid where it leaves least of all the places asked about", () => {
    const [best] = readingsThatNarrow(before, radius, candidates, 1);
    for (const place of candidates) {
      const left = varianceOf(readAt([...read, place]), radius);
      expect(left).toBeGreaterThanOrEqual(best!.variance * (1 - 1e-8));
    }
  });
});

describe("several more readings", () => {
  const taken = readingsThatNarrow(before, hollow, candidates, 6);

  test("narrow further with every one, as those readings together do", () => {
    const variances = [varianceOf(before, hollow), ...taken.map(({ variance }) => variance)];
    for (let i = 1; i < variances.length; i++) expect(variances[i]).toBeLessThan(variances[i - 1]!);
    const together = varianceOf(readAt([...read, ...taken.map(({ place }) => place)]), hollow);
    near(taken[5]!.variance / together, 1, 1e-8, "variance left, as a share");
  });

  test("may come back to a place, and there are none where no place is offered", () => {
    const often = readingsThatNarrow(before, hollow, [candidates[0]!], 3);
    expect(often.map(({ place }) => place)).toEqual([candidates[0], candidates[0], candidates[0]]);
    expect(readingsThatNarrow(before, hollow, [], 3)).toEqual([]);
  });
});
