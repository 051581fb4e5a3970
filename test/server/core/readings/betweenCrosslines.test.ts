/** The longest finger pit that crosslines leave room for, in first position. Lengths in mm. */
import { expect, test } from "vitest";
import { longestHiddenPitMm } from "../../../../server/core/readings/betweenCrosslines.ts";
import { instrumentFrom } from "../board/boards.ts";

/** Its fifth above the open string is stopped 109 mm from the nut. */
const violin = instrumentFrom({ instrument: "violin", string_length: "328" });

test("the widest gap in first position counts, from the nut on", () => {
  expect(longestHiddenPitMm([4, 36, 52, 68, 82, 109, 200], violin)).toBe(32);
  expect(longestHiddenPitMm([30, 36, 52, 68, 82, 109], violin)).toBe(30);
});

test("a gap whose middle lies in first position counts as a whole, one beyond it not at all", () => {
  expect(longestHiddenPitMm([10, 20, 30, 40, 50, 60, 70, 80, 130, 145, 266], violin)).toBe(50);
  expect(longestHiddenPitMm([10, 20, 30, 40, 50, 60, 70, 80, 90, 100, 110, 266], violin)).toBe(10);
});
