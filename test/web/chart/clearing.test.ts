/** Labels claim room, and none gets what another has. */
import { expect, test } from "vitest";
import { clearing, textBox } from "../../../web/chart/clearing.ts";

test("who comes first gets the room; a touch is no clash", () => {
  const room = clearing();
  expect(room.claim({ left: 0, top: 0, right: 20, bottom: 10 })).toBe(true);
  expect(room.claim({ left: 19, top: 9, right: 30, bottom: 20 })).toBe(false);
  expect(room.claim({ left: 20, top: 0, right: 30, bottom: 10 })).toBe(true);
});

test("room is kept across the squares that file it", () => {
  const room = clearing();
  room.claim({ left: 35, top: 35, right: 90, bottom: 90 });
  expect(room.isFree({ left: 79, top: 79, right: 85, bottom: 85 })).toBe(false);
  expect(room.isFree({ left: 91, top: 79, right: 99, bottom: 85 })).toBe(true);
});

test("a longer text needs a wider box about the same place", () => {
  const one = textBox(100, 50, "7", 13);
  const two = textBox(100, 50, "43", 13);
  expect(two.right - two.left).toBeGreaterThan(one.right - one.left);
  expect((two.left + two.right) / 2).toBe(100);
});
