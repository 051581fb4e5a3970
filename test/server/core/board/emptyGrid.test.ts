/** Empty grids for the bench. */
import { expect, test } from "vitest";
import { emptyGrid } from "../../../../server/core/board/emptyGrid.ts";
import { stopMm } from "../../../../server/core/board/stops.ts";
import { linePath } from "../../../../server/core/board/stringPaths.ts";
import { instrumentFrom } from "./boards.ts";

const instruments = ["violin", "violin 1/2", "viola 390", "viola", "cello", "cello 3/4", "bass", "bass 5 strings"].map(
  (instrument) => instrumentFrom({ instrument }),
);
const violin = instrumentFrom({ instrument: "violin" });

test("ten minutes' worth on four strings: 7 lines by 11 crosslines", () => {
  const grid = emptyGrid(violin);
  expect(grid.lines).toEqual(["G", "G/D", "D", "D/A", "A", "A/E", "E"]);
  expect(grid.xMm).toHaveLength(11);
});

test("91 readings make 13 crosslines, 35 five lines by seven, 15 three lines by five", () => {
  expect(emptyGrid(violin, 91).xMm).toHaveLength(13);
  expect(emptyGrid(violin, 35)).toMatchObject({ lines: ["G", "D", "D/A", "A", "E"], xMm: { length: 7 } });
  expect(emptyGrid(violin, 15)).toMatchObject({ lines: ["G", "D/A", "E"], xMm: { length: 5 } });
});

test("five strings have nine lines", () => {
  const bass = instrumentFrom({ instrument: "bass 5 strings" });
  expect(emptyGrid(bass).lines).toEqual(["B", "B/E", "E", "E/A", "A", "A/D", "D", "D/G", "G"]);
  expect(emptyGrid(bass, 35).lines).toEqual(["B", "E", "A", "D", "G"]);
});

test.each([9, 15, 35, 77, 91, 400, 20000])("a grid of %i readings can be read on every board", (readings) => {
  for (const instrument of instruments) {
    const { xMm, lines } = emptyGrid(instrument, readings);
    const lengthMm = instrument.boardLengthMm.value;
    expect(Math.min(...xMm)).toBeGreaterThan(3);
    expect(Math.max(...xMm)).toBeLessThan(lengthMm - 3);
    expect(xMm.every(Number.isInteger)).toBe(true);
    expect(xMm.every((x, i) => i === 0 || x > (xMm[i - 1] ?? 0))).toBe(true);
    expect(lines.every((line) => linePath(instrument, line) !== null)).toBe(true);
  }
});

test("about half of the crosslines stand where most wear is, up to the seventh semitone", () => {
  for (const instrument of instruments) {
    const { xMm } = emptyGrid(instrument);
    const near = xMm.filter((x) => x <= Math.round(stopMm(instrument.stringLengthMm.value, 7)));
    // One crossline more or less than half: their number may be odd.
    expect(Math.abs(near.length - xMm.length / 2)).toBeLessThanOrEqual(1);
  }
});

test("crosslines of first position stand on the stopped notes, where fingers press", () => {
  for (const instrument of instruments) {
    const { xMm } = emptyGrid(instrument);
    for (const semitone of [2, 3, 4, 5]) {
      expect(xMm).toContain(Math.round(stopMm(instrument.stringLengthMm.value, semitone)));
    }
  }
});

test("too few readings, or none, are the caller's mistake", () => {
  expect(() => emptyGrid(violin, 8)).toThrow(RangeError);
  expect(() => emptyGrid(violin, Number.NaN)).toThrow(RangeError);
  expect(() => emptyGrid(violin, 1e9)).toThrow(RangeError);
});

test("the grid is a file to fill in: instrument, strings, a header, a row a crossline with its cells empty", () => {
  const rows = emptyGrid(violin, 15).csv.split("\n");
  expect(rows).toEqual([
    "# instrument: violin 4/4",
    "# strings: G, D, A, E",
    "# tip_radius:",
    "# resolution:",
    "# tension:",
    "# build:",
    "# edge_limit:",
    "# rut_width:",
    "x,G,D/A,E",
    "4,,,",
    "36,,,",
    "68,,,",
    "188,,,",
    "266,,,",
    "",
  ]);
});

test("what the workshop gave goes into the file, and reads back to the same board", () => {
  const given = {
    instrument: "bass 5 strings",
    strings: "B E A D G",
    board_length: "845",
    width_end: "101.5",
    hollow_deepest: "0.45",
    flat_ridge_nut: "-9",
    flat_ridge_end: "-16",
  };
  const instrument = instrumentFrom(given);
  const settings = Object.fromEntries(
    emptyGrid(instrument)
      .csv.split("\n")
      .filter((row) => row.startsWith("#"))
      .map((row) =>
        row
          .slice(1)
          .split(":")
          .map((part) => part.trim()),
      ),
  );
  const again = instrumentFrom(settings);
  expect(again.strings).toEqual(instrument.strings);
  expect(again.boardLengthMm.value).toBe(845);
  expect(again.widthEndMm.value).toBe(101.5);
  expect(again.widthNutMm.value).toBe(instrument.widthNutMm.value);
  expect(again.facet?.ridgeEndMm.value).toBe(-16);
  expect(emptyGrid(again).csv.split("\n").at(-2)).toBe(emptyGrid(instrument).csv.split("\n").at(-2));
});
