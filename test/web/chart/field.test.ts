/** A map as a field: carried out to the edge, padded, holes kept, bilinear between. */
import { expect, test } from "vitest";
import { contourLevels, contourLines, evenLevels } from "../../../web/chart/contourLines.ts";
import { deepestOf, depthAt, fieldOf } from "../../../web/chart/field.ts";

const xMm = [0, 2, 4, 6];
const yMm = [-2, -1, 0, 1, 2];
const over = (of: (x: number, y: number) => number | null) => yMm.map((y) => xMm.map((x) => of(x, y)));
const maps = (wearMm: (number | null)[][]) => ({ xMm, yMm, wearMm, cutMm: wearMm });

test("the depth at a node of the map is the map's, and between nodes it is bilinear", () => {
  const depths = over((x, y) => 0.1 * x + 0.01 * y);
  const field = fieldOf(maps(depths), depths);
  expect(depthAt(field, 2, 1)).toBeCloseTo(0.21, 12);
  expect(depthAt(field, 3, 0.5)).toBeCloseTo(0.305, 12);
});

test("outside the outline a column goes on at its outermost depth, so that the outline alone cuts it", () => {
  const depths = over((x, y) => (Math.abs(y) > 1 ? null : 0.1 * x));
  const field = fieldOf(maps(depths), depths);
  expect(depthAt(field, 4, 2)).toBeCloseTo(0.4, 12);
  expect(depthAt(field, 4, -2.9)).toBeCloseTo(0.4, 12);
  expect(depthAt(field, 7.9, 0)).toBeCloseTo(0.6, 12);
});

test("a hole amid the board stays a hole", () => {
  const depths = over((x, y) => (x === 2 && y === 0 ? null : 0.1));
  const field = fieldOf(maps(depths), depths);
  expect(depthAt(field, 2, 0.2)).toBeNaN();
  expect(depthAt(field, 5, 0)).toBeCloseTo(0.1, 12);
});

test("off the grid nothing is known", () => {
  const depths = over(() => 0.1);
  expect(depthAt(fieldOf(maps(depths), depths), 20, 0)).toBeNaN();
});

test("a contour runs where the depth is, in mm", () => {
  const depths = over((x) => 0.1 * x);
  const [line] = contourLines(fieldOf(maps(depths), depths), [0.3]);
  const inside = line!.rings.flat().filter(([x, y]) => Math.abs(y) < 2.5 && x < 6.5);
  expect(inside.length).toBeGreaterThan(3);
  for (const [x] of inside) expect(x).toBeCloseTo(3, 9);
});

test("the deepest cell counts, null cells do not", () => {
  expect(
    deepestOf([
      [null, 0.2],
      [0.31, -1],
    ]),
  ).toBe(0.31);
  expect(deepestOf([[null]])).toBe(0);
});

test.each([
  [0.08, [0.02, 0.04, 0.06]],
  [0.37, [0.05, 0.1, 0.2, 0.3]],
  [0.9, [0.1, 0.2, 0.4, 0.6, 0.8]],
])("a board worn %d mm deep is drawn with few contours", (deepest, levels) => {
  expect(contourLevels(deepest)).toEqual(levels);
});

test("a cut has even contours, none at nothing and none past the deepest", () => {
  expect(evenLevels(0.42).map((level) => level.toFixed(2))).toEqual(
    "0.05 0.10 0.15 0.20 0.25 0.30 0.35 0.40".split(" "),
  );
});
