/** The rail's error: read off its profile, taken off the readings, and what it leaves uncertain. Lengths in mm. */
import { describe, expect, test } from "vitest";
import { railErrorMm, railUMm, withoutRailError } from "../../../../server/core/compensation/rail.ts";
import type { RailProfile } from "../../../../server/core/readings/railProfile.ts";
import { allNear, near } from "../../../support/near.ts";
import { readingsAt } from "../plainBoards.ts";

const profile: RailProfile = [
  { xMm: 0, errorMm: -0.02, uMm: 0.01 },
  { xMm: 100, errorMm: 0.1, uMm: 0.02 },
  { xMm: 300, errorMm: -0.1, uMm: 0.01 },
];

// Sums and products of a few numbers below 300: exact to double precision.
const exactMm = 1e-13;

describe("the rail's error", () => {
  test("is the profile's own at its places, straight between them, and constant beyond", () => {
    const at = [-50, 0, 25, 100, 200, 300, 999];
    allNear(
      at.map((xMm) => railErrorMm(profile, xMm)),
      [-0.02, -0.02, 0.01, 0.1, 0, -0.1, -0.1],
      exactMm,
    );
  });

  test("is taken off: a rail that reads high makes no board higher", () => {
    const readings = readingsAt(
      [
        { xMm: 50, yMm: -4 },
        { xMm: 250, yMm: 4 },
      ],
      () => 7,
    );
    const [one, other] = withoutRailError(readings, profile).readings;
    near(one!.gaugeMm, 6.96, exactMm);
    near(other!.gaugeMm, 7.05, exactMm);
    expect(one).toMatchObject({ xMm: 50, yMm: -4, row: 2 });
  });

  test("leaves √1.5 of its mean uncertainty in a hollow", () => {
    // Mean square: (1 + 4 + 1)/3 · 10⁻⁴ = 2 · 10⁻⁴; √(1.5 · 2 · 10⁻⁴) = 0.01732.
    near(railUMm(profile), Math.sqrt(3e-4), exactMm);
  });
});
