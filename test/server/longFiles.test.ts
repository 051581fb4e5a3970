/** Which files wait for a turn and a thread apart: all together count, whatever pieces they came in. */
import { expect, test } from "vitest";
import { areLong } from "../../server/longFiles.ts";

const bytes = (count: number) => new Uint8Array(count);

test("a bench's readings are not long, a probe's are", () => {
  expect(areLong([[bytes(2_000)]])).toBe(false);
  expect(areLong([[bytes(64 * 1024 - 1)]])).toBe(false);
  expect(areLong([[bytes(64 * 1024)]])).toBe(true);
  expect(areLong([])).toBe(false);
});

test("pieces and files count together: a long profile of the rail beside short readings is long", () => {
  expect(areLong([[bytes(40_000), bytes(40_000)]])).toBe(true);
  expect(areLong([[bytes(2_000)], [], [bytes(64 * 1024)]])).toBe(true);
});
