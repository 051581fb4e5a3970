/** The board's outline. */
import { expect, test } from "vitest";
import { halfWidthMm, isOnBoard } from "../../../../server/core/board/outline.ts";
import { near } from "../../../support/near.ts";
import { instrumentFrom } from "./boards.ts";

const violin = instrumentFrom({ instrument: "violin" });

test("a violin's board is 24 wide at the nut, 42 at the end, and halfway between in the middle", () => {
  // Exact in binary but for the division by the length: a few units in the last place.
  near(halfWidthMm(violin, 0), 12, 1e-12);
  near(halfWidthMm(violin, 135), 16.5, 1e-12);
  near(halfWidthMm(violin, 270), 21, 1e-12);
});

test("the edge is on the board, a hair beyond it is not", () => {
  expect(isOnBoard(violin, { xMm: 0, yMm: 12 })).toBe(true);
  expect(isOnBoard(violin, { xMm: 0, yMm: 12.01 })).toBe(false);
  expect(isOnBoard(violin, { xMm: 270, yMm: -21 })).toBe(true);
  expect(isOnBoard(violin, { xMm: 270.01, yMm: 0 })).toBe(false);
  expect(isOnBoard(violin, { xMm: -0.01, yMm: 0 })).toBe(false);
});

test("slack lets a place lie a little outside any edge", () => {
  expect(isOnBoard(violin, { xMm: 0, yMm: 12.9 }, 1)).toBe(true);
  expect(isOnBoard(violin, { xMm: 0, yMm: 13.1 }, 1)).toBe(false);
  expect(isOnBoard(violin, { xMm: -0.9, yMm: 0 }, 1)).toBe(true);
  expect(isOnBoard(violin, { xMm: 271.1, yMm: 0 }, 1)).toBe(false);
});

test("mirrored, a place is on the board or off it as before", () => {
  for (let xMm = -10; xMm <= 280; xMm += 7) {
    for (let yMm = 0; yMm <= 25; yMm += 1.3) {
      expect(isOnBoard(violin, { xMm, yMm })).toBe(isOnBoard(violin, { xMm, yMm: -yMm }));
    }
  }
});
