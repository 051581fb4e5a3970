/** The drawer's settings are settings of the program, with the same choices and figures. */
import { expect, test } from "vitest";
import { settingTable } from "../../../server/core/board/settingTable.ts";
import { settingChapters } from "../../../web/pages/settingEntries.ts";

const entries = settingChapters.flatMap((chapter) => chapter.entries);

test.each(entries.map((entry) => [entry.key, entry] as const))("%s is a setting of the program", (key, entry) => {
  const setting = settingTable.find((one) => one.key === key);
  expect(setting).toBeDefined();
  expect([...(entry.choices ?? [])].sort()).toEqual([...(setting?.choices ?? [])].sort());
  expect(entry.figure).toBe(setting?.figure);
});

test("no setting is asked twice", () => {
  expect(new Set(entries.map((entry) => entry.key)).size).toBe(entries.length);
});
