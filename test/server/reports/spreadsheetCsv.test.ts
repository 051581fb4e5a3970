/** Tables for a spreadsheet: numbers stay numbers, and no text becomes a formula, whichever sign the spreadsheet parts cells by. */
import Papa from "papaparse";
import { describe, expect, test } from "vitest";
import { spreadsheetCsv, tenThousandths } from "../../../server/reports/spreadsheetCsv.ts";

/** Signs that begin a formula: OWASP, CSV Injection, and their full-width forms. */
const formulaSigns = ["=", "+", "-", "@", "\uFF1D", "\uFF0B", "\uFF0D", "\uFF20"];

describe("a text in a table", () => {
  test.each([
    ["=1+1", "'=1+1"],
    ["+49 30", "'+49 30"],
    ["-0.2 mm", "'-0.2 mm"],
    ["@SUM(A1)", "'@SUM(A1)"],
    ["\uFF1D1+1", "'\uFF1D1+1"],
    ["\t=1", "'\t'=1"],
    ["\rx", "'\rx"],
    [" =1", " '=1"],
    ['"=1"', '"\'=1"'],
    ["see; =1", "see; '=1"],
    ["two lines\n=1", "two lines\n'=1"],
    ["=1\ntwo lines", "'=1\ntwo lines"],
    ["C-07", "C-07"],
    ["a = b - c", "a = b - c"],
    ["", ""],
  ])("%j becomes %j", (text, safe) => {
    const { data: rows } = Papa.parse<string[]>(spreadsheetCsv(["says", "x"], [[text, 1]]), { delimiter: "," });
    expect(rows[1]).toEqual([safe, "1"]);
  });

  test("never begins a cell with a formula, where cells are parted by commas, semicolons or tabs", () => {
    const pieces = [...formulaSigns, "\t", "\r", "\n", "\r\n", ";", ",", '"', " ", "1", "cmd|' /C calc'!A0", "a"];
    const begins = new RegExp(`^[\\s"]*[${formulaSigns.join("").replace("-", "\\-")}]`);
    // Every text of up to three of these pieces, between two cells that mean no harm.
    const texts = pieces.flatMap((one) =>
      ["", ...pieces].flatMap((two) => ["", ...pieces].map((three) => one + two + three)),
    );
    const csv = spreadsheetCsv(
      ["a", "b", "c"],
      texts.map((text) => ["x", text, 1]),
    );
    for (const delimiter of [",", ";", "\t"]) {
      const { data: rows } = Papa.parse<string[]>(csv, { delimiter });
      const formulas = rows.flat().filter((cell) => begins.test(cell));
      expect(formulas).toEqual([]);
    }
    expect(texts).toHaveLength(19 * 20 * 20);
  });
});

describe("a table", () => {
  test("keeps numbers as numbers, negative ones too, and blanks blank (RFC 4180: commas, CR LF, quotes doubled)", () => {
    expect(
      spreadsheetCsv(
        ["y_mm", "says"],
        [
          [-9.5, 'the "D", worn'],
          [0, null],
          [1e-5, "x"],
        ],
      ),
    ).toBe('y_mm,says\r\n-9.5,"the ""D"", worn"\r\n0,\r\n0.00001,x\r\n');
  });

  test("without rows is its header", () => {
    expect(spreadsheetCsv(["a", "b"], [])).toBe("a,b\r\n");
  });
});

test("lengths go out to 0.0001 mm, without a negative zero", () => {
  expect([0.21494, -0.00004, 5, null, undefined].map(tenThousandths)).toEqual([0.2149, 0, 5, null, null]);
});
