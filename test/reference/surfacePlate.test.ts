/**
 * The least cut against a surveyed surface plate: 126 heights on eight lines, J. C. Moody, The Tool Engineer, October 1955
 * (figures, source and the proof by hand: surfacePlate.json).
 */
import { describe, expect, test } from "vitest";
import { solveLeastSquares } from "../../server/core/maths/leastSquares.ts";
import { near } from "../support/near.ts";
import { targetBelow } from "../support/targetBelow.ts";
import plate from "./surfacePlate.json" with { type: "json" };

const stations = plate.lines.flatMap(({ start, end, height }) =>
  height.map((reading, i) => {
    const along = i / (height.length - 1);
    return {
      u: start[0]! + along * (end[0]! - start[0]!),
      v: start[1]! + along * (end[1]! - start[1]!),
      reading,
    };
  }),
);
const heights = stations.map(({ reading }) => reading);
const planeBasis = stations.map(({ u, v }) => [1, u, v]);

test("the survey is carried over whole: 126 heights, lowest 0, highest 92", () => {
  expect(heights).toHaveLength(126);
  expect(Math.min(...heights)).toBe(0);
  expect(Math.max(...heights)).toBe(plate.highest);
});

describe("the plane below the plate", () => {
  const optimum = targetBelow(planeBasis, heights);
  const cutAt = (i: number) => heights[i]! - planeAt(optimum.x, stations[i]!.u, stations[i]!.v);

  test("leaves a largest cut of 84.5", () => {
    // Provable by hand; rounding on numbers near 100.
    near(optimum.objective, plate.plane.spread, 1e-9);
  });

  test("lies below every reading, touches it at the two lows, and cuts deepest at the two highs", () => {
    for (let i = 0; i < heights.length; i++) expect(cutAt(i)).toBeGreaterThan(-1e-9);
    for (const [u, v] of plate.plane.touches) near(cutAt(stationAt(u!, v!)), 0, 1e-9, "gap at a low");
    for (const [u, v] of plate.plane.highest) near(cutAt(stationAt(u!, v!)), 84.5, 1e-9, "cut at a high");
  });

  test("can't be bettered, by the crossing criterion and without a solver", () => {
    // Both segments cross over the middle of the plate: whatever plane lies below the lows lies there at most at their mean.
    const [lows, highs] = [plate.plane.touches, plate.plane.highest];
    for (const pair of [lows, highs]) {
      near((pair[0]![0]! + pair[1]![0]!) / 2, 0.5, 0);
      near((pair[0]![1]! + pair[1]![1]!) / 2, 0.5, 0);
    }
    const atMost = (lows[0]![2]! + lows[1]![2]!) / 2;
    const atLeast = (highs[0]![2]! + highs[1]![2]!) / 2;
    expect(atLeast - atMost).toBe(84.5);
  });

  test("has multipliers that prove it: half on each low, half on each high", () => {
    const carried = (kind: "touch" | "deepest", [u, v]: number[]) => {
      const offset = kind === "touch" ? 0 : heights.length;
      return sameStation(u!, v!).reduce((sum, i) => sum + optimum.multipliers[offset + i]!, 0);
    };
    for (const low of plate.plane.touches) near(carried("touch", low), 0.5, 1e-9, "multiplier of a low");
    for (const high of plate.plane.highest) near(carried("deepest", high), 0.5, 1e-9, "multiplier of a high");
    // All weight lies on these four.
    near(
      optimum.multipliers.reduce((sum, multiplier) => sum + multiplier, 0),
      2,
      1e-9,
    );
  });

  test("beats the least-squares plane, whose spread is 90.41", () => {
    const entries = Float64Array.from(planeBasis.flat());
    const fit = solveLeastSquares({ rows: heights.length, columns: 3, entries }, Float64Array.from(heights));
    if (fit.outcome !== "solved") throw new Error(fit.why);
    const spread = Math.max(...fit.residuals) - Math.min(...fit.residuals);
    // Recomputed elsewhere in double precision.
    near(spread, plate.leastSquaresPlane.spread, 1e-9);
    expect(optimum.objective).toBeLessThan(spread);
  });
});

test("a plate allowed to be cambered along both sides costs 33.300665", () => {
  const basis = stations.map(({ u, v }) => [1, u, v, u * u, v * v]);
  const optimum = targetBelow(basis, heights);
  // Two other solvers agree on 33.300664812749 to their own 1e-9.
  near(optimum.objective, plate.quadratic.spread, 1e-8);
});

function planeAt(coefficients: Float64Array, u: number, v: number): number {
  return coefficients[0]! + coefficients[1]! * u + coefficients[2]! * v;
}

/** Corners and crossings belong to several lines. */
function sameStation(u: number, v: number): number[] {
  return stations.flatMap((station, i) => (Math.hypot(station.u - u, station.v - v) < 1e-9 ? [i] : []));
}

function stationAt(u: number, v: number): number {
  const [first] = sameStation(u, v);
  if (first === undefined) throw new Error(`no station at ${u}, ${v}`);
  return first;
}
