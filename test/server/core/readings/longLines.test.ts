/**
 * Lines made to be looked at again and again: 90,000 blanks, digits or commas with something behind them that spoils the match.
 *
 * Each once took between 2.5 and 15 s, on lines that still count as lines (up to 100,000 characters); a file may have hundreds.
 */
import { expect, test } from "vitest";
import { readRailFile } from "../../../../server/core/readings/readRailFile.ts";
import { readThicknessFile } from "../../../../server/core/readings/readThicknessFile.ts";
import { examinerFor } from "../../../../server/examiner.ts";
import { loadInstrumentTable } from "../../../../server/instrumentTable.ts";

const startExamining = examinerFor(loadInstrumentTable(), "test");

const long = (piece: string) => piece.repeat(90_000 / piece.length);
const list = "# instrument: violin\nx,y,height\n";

/** Now they take 0.05 s at most; half a second leaves room for a machine that does much else. */
const longestMs = 500;

function msOf(task: () => unknown): number {
  const begun = performance.now();
  task();
  return performance.now() - begun;
}

test.each([
  ["a cell of blanks", `${list}1,2,1${long(" ")}x\n`],
  ["a cell of digits", `${list}1,2,${long("1")}x\n`],
  ["a cell of digits with a letter for one", `${list}1,2,${long("1")}O,\n`],
  ["a remark of commas", `#${long(",")}x\n${list}`],
  ["a remark of blanks", `#${long(" ")}x\n${list}`],
  ["strings far apart", `# strings: C${long(" ")}x\n${list}`],
  ["a length with blanks behind it", `# tip_radius: 1${long(" ")}x\n${list}`],
  ["templates far apart", `# templates: 40${long(" ")}x\n${list}`],
  ["an instrument with blanks behind it", `# instrument: violin${long(" ")}x\nx,y,height\n`],
  ["a setting of two words far apart", `# tip${long(" ")}radius: 1\n${list}`],
  ["a heading of blanks", `x${long(" ")}y,height\n1,2\n`],
  ["a line without an end to its name", `# instrument: violin\nx,line,height\n1,G${long(" ")}/x,3\n`],
])("%s is told as a fault at once", (_what, csv) => {
  const examining = startExamining();
  const bytes = Buffer.from(csv);
  expect(
    msOf(() => {
      examining.readings.push(bytes);
      expect(examining.finish([]).outcome).toBe("faulty");
    }),
  ).toBeLessThan(longestMs);
});

test("so are such cells of a thickness file and of a rail's profile", () => {
  const cell = `1${long(" ")}x`;
  expect(msOf(() => readThicknessFile(`x,side,thickness\n1,bass,${cell}\n`))).toBeLessThan(longestMs);
  expect(msOf(() => readRailFile(`x,error\n1,${cell}\n`))).toBeLessThan(longestMs);
});
