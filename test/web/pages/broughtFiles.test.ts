/** Which file is which, and what becomes of those that were there before. */
import { expect, test } from "vitest";
import { isThicknessHeader, sortBrought } from "../../../web/pages/broughtFiles.ts";

const readings = new File(["# instrument: cello\n\nx;y;height\n1;2;3\n"], "readings.csv");
const thickness = new File(["\uFEFF# calliper\nx,side,thickness_mm\n10,bass,6\n"], "thickness.csv");
const none = { readings: null, thickness: null };

test.each([
  ["x,side,thickness\n", true],
  ["# thickness below\nx,y,height\n", false],
  ['"x"\t"Thickness"\t"side"\n', true],
  ["", false],
])("%j is told by its header", (text, is) => {
  expect(isThicknessHeader(text)).toBe(is);
});

test("readings and thickness are told apart in either order", async () => {
  expect(await sortBrought([thickness, readings], none, false)).toEqual({ readings, thickness });
  expect(await sortBrought([readings, thickness], none, false)).toEqual({ readings, thickness });
});

test("thickness alone joins the readings that are there", async () => {
  expect(await sortBrought([thickness], { readings, thickness: null }, false)).toEqual({ readings, thickness });
});

test("readings alone are a new board, unless a faulty file is being mended", async () => {
  expect(await sortBrought([readings], { readings, thickness }, false)).toEqual({ readings, thickness: null });
  expect(await sortBrought([readings], { readings, thickness }, true)).toEqual({ readings, thickness });
});
