/**
 * A ball in a groove, on a slope and on arcs: published and elementary figures (ballTip.json), against the tool's formulas and
 * against a ball lowered numerically by the generator of the example boards, which shares nothing with them. Lengths in mm.
 */
import { describe, expect, test } from "vitest";
import { lowerBall } from "../../data/make/probe.ts";
import { reachMm, touchOf } from "../../server/core/compensation/tip.ts";
import { near } from "../support/near.ts";
import published from "./ballTip.json" with { type: "json" };

/** The lowered ball settles to a micrometre aside; where it rests on a rim that is a micrometre of slope, at most ten in height. */
const settledMm = 0.002;

describe.each(published.groove)(
  "a ball of $tipRadiusMm in a groove $widthMm wide",
  ({ tipRadiusMm, widthMm, deepMm }) => {
    test("sinks as deep as published", () => {
      // Given to full precision: rounding only.
      near(reachMm(tipRadiusMm, widthMm), deepMm, 1e-14, "formula");
      const groove = (_: number, yMm: number) => (Math.abs(yMm) < widthMm / 2 ? -2 * tipRadiusMm : 0);
      near(-lowerBall(groove, 0, 0, tipRadiusMm, widthMm).heightMm, deepMm, settledMm, "lowered");
    });
  },
);

test.each(published.vee)("a ball of $tipRadiusMm stays $unreachedMm above the bottom of a V of $angleDeg°", (vee) => {
  const steepness = 1 / Math.tan((vee.angleDeg * Math.PI) / 360);
  const sides = (_: number, yMm: number) => steepness * Math.abs(yMm);
  near(lowerBall(sides, 0, 0, vee.tipRadiusMm, 1).heightMm, vee.unreachedMm, settledMm, "lowered");
});

test.each(published.tilt)("a ball of $tipRadiusMm on a slope of $angleDeg° reads $highMm high", (tilt) => {
  const slope = Math.tan((tilt.angleDeg * Math.PI) / 180);
  const touch = touchOf(0, 0, tilt.tipRadiusMm, () => ({ alongX: slope, alongY: 0 }));
  // The reading stands at 0; the plane through the touching point passes below it there.
  const highMm = -(touch.riseMm - slope * touch.xMm);
  near(highMm, tilt.highMm, 1e-14, "formula");
  near(lowerBall((xMm) => slope * xMm, 0, 0, tilt.tipRadiusMm, 10).heightMm, tilt.highMm, 1e-6, "lowered");
});

describe.each(published.arc)(
  "a ball of $tipRadiusMm on an arc of $radiusMm",
  ({ radiusMm, tipRadiusMm, convexMm, hollowMm }) => {
    // A ball resting on an arc moves its centre on an arc of R + r (on the outside) or R − r (inside).
    test.each([
      { side: "outside", sign: 1, centreMm: convexMm },
      { side: "inside", sign: -1, centreMm: hollowMm },
    ])("moves its centre on the published arc, $side", ({ sign, centreMm }) => {
      const heightMm = (_: number, yMm: number) => sign * (Math.sqrt(radiusMm ** 2 - yMm ** 2) - radiusMm);
      const slopes = (_: number, yMm: number) => ({
        alongX: 0,
        alongY: (-sign * yMm) / Math.sqrt(radiusMm ** 2 - yMm ** 2),
      });
      for (const yMm of [0, 5, 11, 20]) {
        const lowestMm = sign * (Math.sqrt(centreMm ** 2 - yMm ** 2) - radiusMm) - tipRadiusMm;
        near(lowerBall(heightMm, 0, yMm, tipRadiusMm, 50).heightMm, lowestMm, 1e-6, `lowered at ${yMm}`);
        // Compensated it lies on the arc: of r/R = 1/120 at most per look, three looks leave a millionth of the way aside.
        const touch = touchOf(0, yMm, tipRadiusMm, slopes);
        near(lowestMm + touch.riseMm, heightMm(0, touch.yMm), 1e-6, `touching point from ${yMm}`);
      }
    });
  },
);

test("a ball on a fingerboard of 42 reads 0.108 high at 15.4 off centre with a tip of 1.5, and 0.222 at 21", () => {
  const arc = (_: number, yMm: number) => Math.sqrt(42 ** 2 - yMm ** 2) - 42;
  for (const [yMm, highMm] of [
    [15.4, 0.108],
    [21, 0.222],
  ] as const) {
    // Printed to three decimals.
    near(lowerBall(arc, 0, yMm, 1.5, 50).heightMm - arc(0, yMm), highMm, 5e-4, `at ${yMm}`);
    expect(lowerBall(arc, 0, yMm, 0, 50).heightMm).toBe(arc(0, yMm));
  }
});
