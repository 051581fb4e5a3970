/**
 * Small thickness files, each with the rule it stands for and what must come of it: thicknesses in mm, or exactly these faults.
 *
 * A violin's board: 270 long, half-width 12 + x/30. A thickness is [line of the file, x, side, y, thickness].
 */
import { describe, expect, test } from "vitest";
import type { Side } from "../../../../server/core/examination.ts";
import { checkThickness } from "../../../../server/core/readings/checkThickness.ts";
import { readThicknessFile, thicknessFileReader } from "../../../../server/core/readings/readThicknessFile.ts";
import { near } from "../../../support/near.ts";
import { instrumentOf, settingsOf } from "./readingsFromText.ts";

type Thickness = readonly [row: number, xMm: number, side: Side, yMm: number, thicknessMm: number];
type Case = { readonly rule: string; readonly text: string } & (
  | { readonly gives: readonly Thickness[] }
  | { readonly faults: readonly (readonly [number | null, number | null, string])[] }
);

const head = "x,side,thickness\n";
const one: readonly Thickness[] = [[2, 30, "bass", -13, 5.2]];

const cases: readonly Case[] = [
  { rule: "a thickness on the bass edge stands at the outline", text: `${head}30,bass,5.2`, gives: one },
  {
    rule: "a thickness on the treble edge stands at the outline",
    text: `${head}30,treble,5.2`,
    gives: [[2, 30, "treble", 13, 5.2]],
  },
  {
    rule: "a thickness at the centre stands on the centreline",
    text: `${head}240,centre,6`,
    gives: [[2, 240, "centre", 0, 6]],
  },
  {
    rule: "a thickness at the centre may stand off the centreline",
    text: "x,side,y,thickness\n240,centre,-4,6",
    gives: [[2, 240, "centre", -4, 6]],
  },
  {
    rule: "an edge with a y on its side still stands at the outline",
    text: "x,side,y,thickness\n30,bass,-12,5.2",
    gives: one,
  },
  { rule: "an empty y is no y", text: "x,side,y,thickness\n30,bass,,5.2", gives: one },
  { rule: "columns come in any order", text: "thickness,x,side\n5.2,30,bass", gives: one },
  { rule: "headings may name mm", text: "x_mm,side,thickness (mm)\n30,bass,5.2", gives: one },
  { rule: "a decimal comma is fine between semicolons", text: "x;side;thickness\n30;bass;5,2", gives: one },
  { rule: "mm may stand behind the number", text: `${head}30 mm,bass,5.2 mm`, gives: one },
  { rule: "sides don't mind capitals, and may say edge", text: `${head}30, Bass  Edge ,5.2`, gives: one },
  { rule: "center is centre", text: `${head}240,center,6`, gives: [[2, 240, "centre", 0, 6]] },
  { rule: "a missing thickness is left out", text: `${head}20,bass,\n30,bass,5.2`, gives: [[3, 30, "bass", -13, 5.2]] },
  {
    rule: "remarks and blank lines are read past",
    text: `# outside calliper\n\n${head}# nut end\n30,bass,5.2\n`,
    gives: [[5, 30, "bass", -13, 5.2]],
  },
  { rule: "a note is read past", text: "x,side,thickness,note\n30,bass,5.2,chipped", gives: one },
  { rule: "trailing delimiters are read past", text: "x,side,thickness,,\n30,bass,5.2,,", gives: one },
  {
    rule: "the same place twice is a repeat",
    text: `${head}30,bass,5.2\n30,bass,5.1`,
    gives: [...one, [3, 30, "bass", -13, 5.1]],
  },
  {
    rule: "nothing is thinner than nought",
    text: `${head}30,bass,0\n30,bass,-5`,
    faults: [
      [2, 3, "thickness-range"],
      [3, 3, "thickness-range"],
    ],
  },
  {
    rule: "a board is thinner than 40 mm: a decimal point is missing",
    text: `${head}30,bass,52\n30,bass,40`,
    faults: [
      [2, 3, "thickness-range"],
      [3, 3, "thickness-range"],
    ],
  },
  { rule: "an unknown side is told", text: `${head}30,left,5.2`, faults: [[2, 2, "side-unknown"]] },
  { rule: "a missing side is told", text: `${head}30,,5.2`, faults: [[2, 2, "side-unknown"]] },
  { rule: "a missing x is told", text: `${head},bass,5.2`, faults: [[2, 1, "x-missing"]] },
  { rule: "past the end is off the board", text: `${head}271,bass,5.2`, faults: [[2, 1, "off-the-board"]] },
  {
    rule: "a centre reading past the edge is told",
    text: "x,side,y,thickness\n30,centre,14,5.2",
    faults: [[2, 3, "outside-the-outline"]],
  },
  {
    rule: "a bass edge at a treble y is told",
    text: "x,side,y,thickness\n30,bass,12,5.2",
    faults: [[2, 3, "side-contradicts-y"]],
  },
  {
    rule: "a bad number is told at its cell",
    text: `${head}3O,bass,5.2\n30,bass,thin`,
    faults: [
      [2, 1, "letter-in-number"],
      [3, 3, "not-a-number"],
    ],
  },
  { rule: "a decimal comma between commas is told", text: `${head}30,bass,5,2`, faults: [[2, null, "cell-count"]] },
  { rule: "inches in a heading are told", text: "x,side,thickness_in\n30,bass,0.2", faults: [[1, 3, "unit-unknown"]] },
  { rule: "inches behind a number are told", text: `${head}30,bass,0.2 in`, faults: [[2, 3, "unit-in-cell"]] },
  {
    rule: "a setting belongs in the readings file",
    text: `# unit: in\n${head}30,bass,5.2`,
    faults: [[1, null, "setting-in-thickness"]],
  },
  {
    rule: "an unknown column is told",
    text: "x,side,thickness,by\n30,bass,5.2,me",
    faults: [[1, 4, "column-unknown"]],
  },
  { rule: "a column twice is told", text: "x,side,thickness,x\n30,bass,5.2,30", faults: [[1, 4, "column-twice"]] },
  { rule: "a missing column is told", text: "x,thickness\n30,5.2", faults: [[1, null, "column-missing"]] },
  {
    rule: "a readings file given as thickness is told",
    text: "x,y,height\n30,0,0.45",
    faults: [[1, 3, "readings-file"]],
  },
  { rule: "the header again is told", text: `${head}30,bass,5.2\n${head}`, faults: [[3, null, "second-header"]] },
  { rule: "an empty file is told", text: "", faults: [[null, null, "empty-file"]] },
  { rule: "a header alone is told", text: head, faults: [[null, null, "no-readings"]] },
  { rule: "a workbook is told", text: "PK\u0003\u0004", faults: [[null, null, "not-text"]] },
];

const violin = instrumentOf(settingsOf([]));

describe("a thickness file", () => {
  test.each(cases.map((one) => [one.rule, one] as const))("%s", (_, one) => {
    const checked = checkThickness(readThicknessFile(one.text), violin);
    if ("faults" in one) {
      const faults = checked.outcome === "faulty" ? checked.faults : [];
      expect(faults.map(({ line, column, code }) => [line, column, code])).toEqual(one.faults);
      for (const { where, remedy } of faults) {
        expect(where).toBe("thickness");
        expect(remedy).toMatch(/^(A letter|A thickness|Convert|Correct|Give|Keep|Move|One file|Save|Write)\b.*[.?)]$/);
      }
      return;
    }
    if (checked.outcome === "faulty") throw new Error(JSON.stringify(checked.faults));
    expect(checked.thickness.map(({ row, side }) => [row, side])).toEqual(
      one.gives.map(([row, , side]) => [row, side]),
    );
    one.gives.forEach(([, xMm, , yMm, thicknessMm], i) => {
      expect(checked.thickness[i]!.xMm).toBe(xMm);
      expect(checked.thickness[i]!.thicknessMm).toBe(thicknessMm);
      // The outline's taper: a few roundings of double precision at 13 mm.
      near(checked.thickness[i]!.yMm, yMm, 1e-14, "y");
    });
  });

  test("gives the same answer byte by byte", () => {
    for (const { rule, text } of cases) {
      const reader = thicknessFileReader();
      for (const byte of new TextEncoder().encode(text)) reader.push(Uint8Array.of(byte));
      expect(reader.finish(), rule).toEqual(readThicknessFile(text));
    }
  });
});
