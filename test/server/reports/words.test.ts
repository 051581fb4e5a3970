/** Numbers and names as they are read. Expected texts follow from the rounding rule by hand. */
import { expect, test } from "vitest";
import {
  bareQuantity,
  counted,
  depth,
  distance,
  hundredths,
  measure,
  placeInWords,
  quantity,
  radius,
  wrapped,
} from "../../../server/reports/words.ts";

test("a depth is told to a hundredth, as a bench gauge shows it", () => {
  expect(hundredths(0.2149)).toBe("0.21");
  expect(depth(3.5)).toBe("3.50 mm");
  expect(hundredths(1.005)).toBe("1.00"); // 1.005 is stored a little below
});

test("a hump has a true minus sign, and nothing is ever minus zero", () => {
  expect(hundredths(-0.051)).toBe("−0.05");
  expect(hundredths(-0.004)).toBe("0.00");
});

test("an uncertainty is rounded up, so that no board looks surer than it is", () => {
  expect(quantity({ value: 0.2149, u: 0.0121 })).toBe("0.21 ± 0.02 mm");
  expect(bareQuantity({ value: 0.2, u: 0.001 })).toBe("0.20 ± 0.01");
  expect(bareQuantity({ value: 0.2, u: 0.1 * 3 - 0.27 })).toBe("0.20 ± 0.03"); // 0.030000000000000027 as stored
  expect(bareQuantity({ value: 0.2, u: 0 })).toBe("0.20 ± 0.00");
});

test("a radius is told to a tenth, a place along the board to a millimetre", () => {
  expect(radius(41.97)).toBe("42.0");
  expect(measure(61.97, 0.41)).toBe("62.0 ± 0.5 mm");
  expect(measure(62, null)).toBe("62.0 mm");
  expect(measure(3.5, null)).toBe("3.50 mm");
  expect(measure(3.5, 0.041)).toBe("3.50 ± 0.05 mm");
  expect(distance(57.8)).toBe("58 mm");
});

test("a place is named as a player would", () => {
  expect(placeInWords({ string: "C", note: "E", position: "first" })).toBe("on the C string at E, first position");
  expect(counted(1, "line")).toBe("1 line");
  expect(counted(0, "dressing")).toBe("0 dressings");
});

test("long lines break at blanks and hang under their beginning", () => {
  expect(wrapped("the pit under the A string", 14, " - ")).toBe(" - the pit\n   under the A\n   string");
  expect(wrapped("unbreakableunbreakable x", 10)).toBe("unbreakableunbreakable\nx");
  expect(wrapped("", 10, " - ")).toBe(" - ");
});
