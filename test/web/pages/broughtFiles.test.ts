/** Which file is which, and what becomes of those that were there before. */
import { expect, test } from "vitest";
import {
  type Before,
  kindByHeader,
  nothingBrought,
  nothingWaits,
  sortBrought,
} from "../../../web/pages/broughtFiles.ts";

const readings = new File(["# instrument: cello\n\nx;y;height\n1;2;3\n"], "readings.csv");
const thickness = new File(["\uFEFF# calliper\nx,side,thickness_mm\n10,bass,6\n"], "thickness.csv");
const rail = new File(["# Rail error profile from 30 readings\nx,error,u\n0,0.01,0.004\n"], "rail.csv");
const other = new File(["x,y,height\n4,5,6\n"], "other.csv");
const before: Before = { onSheet: nothingBrought, isExample: false, waiting: nothingWaits, isMending: false };
const board = { readings, thickness, rail: null };

test.each([
  ["x,side,thickness\n", "thickness"],
  ["# thickness below\nx,y,height\n", "readings"],
  ['"x"\t"Thickness"\t"side"\n', "thickness"],
  ["x;error_mm\n", "rail"],
  ["# gauge_error: 0.01\nx,y,height\n", "readings"],
  ["", "readings"],
])("%j is told by its header", (text, kind) => {
  expect(kindByHeader(text)).toBe(kind);
});

test("readings, thickness and rail are told apart in any order", async () => {
  for (const files of [
    [thickness, readings, rail],
    [rail, readings, thickness],
  ]) {
    const sorted = await sortBrought(files, before);
    expect(sorted).toEqual({ board: { readings, thickness, rail }, waiting: nothingWaits, leftOut: [] });
  }
});

test("thickness or a rail alone joins the workshop's own readings that are there, and leaves the other file be", async () => {
  const own = { ...before, onSheet: { readings, thickness: null, rail: null } };
  expect((await sortBrought([thickness], own)).board).toEqual(board);
  expect((await sortBrought([rail], { ...own, onSheet: board })).board).toEqual({ readings, thickness, rail });
});

test("thickness and rail alone never join an example: they wait, and join the readings that come next", async () => {
  const example = { ...before, onSheet: { readings: other, thickness: null, rail: null }, isExample: true };
  const sorted = await sortBrought([thickness], example);
  expect(sorted).toEqual({ board: null, waiting: { thickness, rail: null }, leftOut: [] });
  const both = await sortBrought([rail], { ...example, waiting: sorted.waiting });
  expect(both.waiting).toEqual({ thickness, rail });
  const next = await sortBrought([readings], { ...example, waiting: both.waiting });
  expect(next).toEqual({ board: { readings, thickness, rail }, waiting: nothingWaits, leftOut: [] });
});

test("of two files of a kind the first is taken, and the other is named as left out", async () => {
  const sorted = await sortBrought([readings, other, thickness], before);
  expect(sorted).toEqual({ board, waiting: nothingWaits, leftOut: [other] });
});

test("readings alone are a new board, unless a faulty file of the workshop's own is being mended", async () => {
  const onSheet = { readings: other, thickness, rail: null };
  expect((await sortBrought([readings], { ...before, onSheet })).board).toEqual({ ...board, thickness: null });
  const mending = { ...before, onSheet, isMending: true };
  expect((await sortBrought([readings], mending)).board).toEqual(board);
  expect((await sortBrought([readings], { ...mending, isExample: true })).board).toEqual({ ...board, thickness: null });
});

test("the rail goes on to the next board, as the gauge does; an example's rail does not", async () => {
  const onSheet = { readings: other, thickness, rail };
  const next = { readings, thickness: null, rail };
  expect((await sortBrought([readings], { ...before, onSheet })).board).toEqual(next);
  const ofExample = await sortBrought([readings], { ...before, onSheet, isExample: true });
  expect(ofExample.board).toEqual({ ...next, rail: null });
});
