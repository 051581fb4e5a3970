/** Places that share the board's area, and integrals over them, by hand. Lengths in mm. */
import { expect, test } from "vitest";
import { halfWidthMm } from "../../../../server/core/board/outline.ts";
import { areaPlaces } from "../../../../server/core/planing/secondAim.ts";
import { near } from "../../../support/near.ts";
import { violin } from "../plainBoards.ts";

const places = areaPlaces(violin);
const mean = (of: (xMm: number, yMm: number) => number) =>
  places.reduce((sum, { xMm, yMm }) => sum + of(xMm, yMm), 0) / places.length;

test("the places lie on the board, as many on one side as on the other", () => {
  for (const { xMm, yMm } of places) expect(Math.abs(yMm)).toBeLessThan(halfWidthMm(violin, xMm));
  near(
    mean((_, yMm) => yMm),
    0,
    1e-12,
  );
});

test("their mean is the board's centre of area: L/3 · (24 + 2·42) / (24 + 42)", () => {
  // Midpoints of 36 strips of one area: some 1/36² of the length's curvature.
  near(
    mean((xMm) => xMm),
    ((270 / 3) * (24 + 84)) / 66,
    0.05,
  );
});

test("their mean square across is the trapezium's: (24² + 42²) / 24", () => {
  // ∫ w³/12 dx over ∫ w dx = (a² + b²) / 24; midpoints of twelve strips across miss 1/144 of it.
  near(
    mean((_, yMm) => yMm * yMm),
    (24 ** 2 + 42 ** 2) / 24,
    ((24 ** 2 + 42 ** 2) / 24) * 0.01,
  );
});
