/** Which places stand out of the noise, against the bar worked out by hand. Lengths in mm. */
import { describe, expect, test } from "vitest";
import { standingOut } from "../../../../server/core/wear/standingOut.ts";
import { comparedAt } from "../../../../server/core/wear/wearAtReadings.ts";
import { evenly, knownSurface, type PlaceOnLine, sevenLines, shapeWith, violin, wearAt } from "../plainBoards.ts";

const noiseMm = 0.01;
const surface = knownSurface(shapeWith(), violin, noiseMm);
const crosslines = evenly(5, 265, 11);
const places = sevenLines(violin, crosslines);
/** One of 77 unworn places lies farther out than this many standard deviations once in twenty boards: Φ⁻¹(1 − 0.05/77) = 3.216. */
const bar = 3.216;
/** A place in the middle of the board. */
const middle = 5 * 7 + 3;

const at = (wear: (place: PlaceOnLine, index: number) => number, on = places) => wearAt(on, surface, wear).places;
const which = (standsOut: readonly boolean[]) => standsOut.flatMap((stands, i) => (stands ? [i] : []));

describe("a place alone", () => {
  const lone = (depthMm: number) => at((_, i) => (i === middle ? depthMm : 0));

  // The bar is known to four figures.
  test("stands out when it lies deeper than the bar, and not when it falls just short", () => {
    expect(which(standingOut(lone(1.001 * bar * noiseMm), 1, surface, violin))).toEqual([middle]);
    expect(which(standingOut(lone(0.999 * bar * noiseMm), 1, surface, violin))).toEqual([]);
  });

  test("read four times needs half as much", () => {
    const four = (depthMm: number) => {
      const { readings } = wearAt(
        [...places, ...Array.from({ length: 3 }, () => places[middle]!)],
        surface,
        ({ xMm, yMm }) => (xMm === places[middle]!.xMm && yMm === places[middle]!.yMm ? depthMm : 0),
      );
      return comparedAt(readings).places;
    };
    expect(which(standingOut(four(1.001 * bar * (noiseMm / 2)), 1, surface, violin))).toEqual([middle]);
    expect(which(standingOut(four(0.999 * bar * (noiseMm / 2)), 1, surface, violin))).toEqual([]);
  });

  test("needs more where the surface itself is uncertain: 3 and 4 make 5", () => {
    const covariance = surface.covariance.slice();
    // The height alone uncertain, by 4/3 of the noise, everywhere.
    covariance[0] = ((4 / 3) * noiseMm) ** 2;
    const uncertain = { ...surface, covariance };
    expect(which(standingOut(lone(1.001 * bar * (5 / 3) * noiseMm), 1, uncertain, violin))).toEqual([middle]);
    expect(which(standingOut(lone(0.999 * bar * (5 / 3) * noiseMm), 1, uncertain, violin))).toEqual([]);
  });
});

describe("shallow wear over three by three places, each of it well within the noise of a place alone", () => {
  const isInPatch = (i: number) => Math.abs(Math.floor(i / 7) - 5) <= 1 && Math.abs((i % 7) - 3) <= 1;
  const patch = (depthMm: number) => at((_, i) => (isInPatch(i) ? depthMm : 0));

  test("stands out in its middle", () => {
    const found = which(standingOut(patch(0.8 * bar * noiseMm), 1, surface, violin));
    expect(found).toContain(middle);
    for (const i of found) expect(isInPatch(i)).toBe(true);
  });

  test("does not when it is a third of the bar", () => {
    expect(which(standingOut(patch(0.33 * bar * noiseMm), 1, surface, violin))).toEqual([]);
  });

  test("does not when the surface may be as far off as the patch is deep", () => {
    const covariance = surface.covariance.slice();
    covariance[0] = (0.8 * bar * noiseMm) ** 2;
    expect(which(standingOut(patch(0.8 * bar * noiseMm), 1, { ...surface, covariance }, violin))).toEqual([]);
  });
});

test("wood that stands above the surface stands out as a hump and not as wear", () => {
  const hump = at((_, i) => (i === middle ? -0.1 : 0));
  expect(which(standingOut(hump, 1, surface, violin))).toEqual([]);
  expect(which(standingOut(hump, -1, surface, violin))).toContain(middle);
});

test("a shallow hump over three by three places stands out in its mean as one that deep does as wear", () => {
  const patch = (heightMm: number) =>
    at((_, i) => (Math.abs(Math.floor(i / 7) - 5) <= 1 && Math.abs((i % 7) - 3) <= 1 ? -heightMm : 0));
  expect(which(standingOut(patch(0.8 * bar * noiseMm), -1, surface, violin))).toContain(middle);
  expect(which(standingOut(patch(0.8 * bar * noiseMm), 1, surface, violin))).toEqual([]);
});
