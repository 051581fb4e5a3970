/** The nearest known word to a mistyped one. */
import { expect, test } from "vitest";
import { editDistance, nearestWord } from "../../../../server/core/board/nearestWord.ts";

test.each([
  // By hand; kitten and sitting is the textbook pair.
  ["kitten", "sitting", 3],
  ["", "abc", 3],
  ["abc", "", 3],
  ["same", "same", 0],
  ["raduis", "radius", 1],
  ["unit", "units", 1],
  ["ab", "ba", 1],
])("from `%s` to `%s` it is %i edits, and as many back", (from, to, edits) => {
  expect(editDistance(from, to)).toBe(edits);
  expect(editDistance(to, from)).toBe(edits);
});

test("the nearest key is offered, of equally near ones the first", () => {
  expect(nearestWord("tip_raduis", ["reads", "tip_radius", "resolution"])).toBe("tip_radius");
  expect(nearestWord("b", ["a", "c"])).toBe("a");
});

test("with no word known there is nothing to offer: the caller's mistake", () => {
  expect(() => nearestWord("a", [])).toThrow(RangeError);
});

test("a word as long as a book takes no longer than a long word", () => {
  expect(editDistance("x".repeat(1e6), "y")).toBe(64);
});
