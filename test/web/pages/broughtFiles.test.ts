/** Which file is which, and what becomes of those that were there before. */
import { expect, test } from "vitest";
import { type Before, isThicknessHeader, sortBrought } from "../../../web/pages/broughtFiles.ts";

const readings = new File(["# instrument: cello\n\nx;y;height\n1;2;3\n"], "readings.csv");
const thickness = new File(["\uFEFF# calliper\nx,side,thickness_mm\n10,bass,6\n"], "thickness.csv");
const other = new File(["x,y,height\n4,5,6\n"], "other.csv");
const none = { readings: null, thickness: null };
const before: Before = { onSheet: none, isExample: false, waiting: null, isMending: false };

test.each([
  ["x,side,thickness\n", true],
  ["# thickness below\nx,y,height\n", false],
  ['"x"\t"Thickness"\t"side"\n', true],
  ["", false],
])("%j is told by its header", (text, is) => {
  expect(isThicknessHeader(text)).toBe(is);
});

test("readings and thickness are told apart in either order", async () => {
  for (const files of [
    [thickness, readings],
    [readings, thickness],
  ]) {
    expect(await sortBrought(files, before)).toEqual({ board: { readings, thickness }, waiting: null, leftOut: [] });
  }
});

test("thickness alone joins the workshop's own readings that are there", async () => {
  const own = { ...before, onSheet: { readings, thickness: null } };
  expect((await sortBrought([thickness], own)).board).toEqual({ readings, thickness });
});

test("thickness alone never joins an example: it waits, and joins the readings that come next", async () => {
  const example = { ...before, onSheet: { readings: other, thickness: null }, isExample: true };
  const sorted = await sortBrought([thickness], example);
  expect(sorted).toEqual({ board: null, waiting: thickness, leftOut: [] });
  const next = await sortBrought([readings], { ...example, waiting: sorted.waiting });
  expect(next).toEqual({ board: { readings, thickness }, waiting: null, leftOut: [] });
});

test("of two files of readings the first is taken, and the other is named as left out", async () => {
  expect(await sortBrought([readings, other, thickness], before)).toEqual({
    board: { readings, thickness },
    waiting: null,
    leftOut: [other],
  });
});

test("readings alone are a new board, unless a faulty file of the workshop's own is being mended", async () => {
  const onSheet = { readings: other, thickness };
  expect((await sortBrought([readings], { ...before, onSheet })).board).toEqual({ readings, thickness: null });
  const mending = { ...before, onSheet, isMending: true };
  expect((await sortBrought([readings], mending)).board).toEqual({ readings, thickness });
  expect((await sortBrought([readings], { ...mending, isExample: true })).board).toEqual({ readings, thickness: null });
});
