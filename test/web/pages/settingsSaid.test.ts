/** Settings said on the page: marked, kept or let go with the board, and told apart from the file's and the defaults. */
import { expect, test } from "vitest";
import { settingInLine } from "../../../server/core/readings/settingLine.ts";
import { fileSettingsIn } from "../../../web/pages/fileSettings.ts";
import { settingEntries } from "../../../web/pages/settingEntries.ts";
import { changedByYou, inForce, saidForNewBoard } from "../../../web/pages/settingsSaid.ts";
import { fixtureExamination } from "../fixtureExamination.ts";

const cello = fixtureExamination("cello");
const entry = (key: string) => settingEntries.find((one) => one.key === key)!;

test("what was changed is said with its unit", () => {
  expect(changedByYou({ tip_radius: "3", build: "solid" })).toBe(
    "2 settings changed by you: tip radius 3 mm, build solid",
  );
  expect(changedByYou({ instrument: "viola 390" })).toBe("1 setting changed by you: instrument viola 390");
  expect(changedByYou({})).toBe("");
});

test("the gauge goes on to a new board; instrument, limits and build are let go", () => {
  const said = { tip_radius: "3", unit: "in", edge_limit: "4", build: "solid", instrument: "cello 4/4", tension: "on" };
  expect(saidForNewBoard(said)).toEqual({
    kept: { tip_radius: "3", unit: "in" },
    letGo: { edge_limit: "4", build: "solid", instrument: "cello 4/4", tension: "on" },
  });
});

test("what holds now is the page's word, else the file's, else the default, and says which", () => {
  const file = fileSettingsIn("\uFEFF# Tip radius: 1,5\n# build:\nx;y;height\n# unit: in\n");
  expect(inForce(entry("tip_radius"), cello, file, { tip_radius: "3" })).toEqual({ value: "3 mm", from: "you, here" });
  expect(inForce(entry("tip_radius"), cello, file, {})).toEqual({ value: "1,5 mm", from: "the file, line 1" });
  expect(inForce(entry("build"), cello, file, {})).toEqual({ value: "unknown", from: "the default" });
  expect(inForce(entry("unit"), cello, file, {})).toEqual({ value: "mm", from: "the default" });
  const { value, origin } = cello.instrument.dressAtMm;
  expect(inForce(entry("dress_at"), cello, file, {})).toEqual({ value: `${value} mm`, from: origin });
});

// The server's reader of the same lines is the second implementation.
test.each(["# Tip radius: 1.5", "# board-length: 270", "# https://example.org", "# at noon we read it", "#unit:in"])(
  "%s says the same to the page as to the server",
  (line) => {
    const read = settingInLine(line);
    const expected = read === null ? [] : [[read.key, { value: read.value, line: 1 }]];
    expect([...fileSettingsIn(`${line}\nx,y,height\n`)]).toEqual(expected);
  },
);
