/** Paths of the strings and of the lines between them. */
import { expect, test } from "vitest";
import { lineNames, linePath, nearestString, stringYMm } from "../../../../server/core/board/stringPaths.ts";
import { near } from "../../../support/near.ts";
import { instrumentFrom } from "./boards.ts";

const violin = instrumentFrom({ instrument: "violin" });
const cello = instrumentFrom({ instrument: "cello" });

// Sums and one division of numbers below 100: some units in the last place.
const roundingMm = 1e-12;

test("a violin's strings fan out from 16.5 at the nut to 33.5 at the bridge", () => {
  near(stringYMm(violin, 0, 0), -8.25, roundingMm);
  near(stringYMm(violin, 1, 0), -2.75, roundingMm);
  near(stringYMm(violin, 2, 0), 2.75, roundingMm);
  near(stringYMm(violin, 3, 0), 8.25, roundingMm);
  near(stringYMm(violin, 3, 328), 16.75, roundingMm);
  near(stringYMm(violin, 3, 164), 12.5, roundingMm);
});

test("there is no fifth string on a violin", () => {
  expect(() => stringYMm(violin, 4, 0)).toThrow(RangeError);
  expect(() => stringYMm(violin, -1, 0)).toThrow(RangeError);
  expect(() => stringYMm(violin, 0.5, 0)).toThrow(RangeError);
});

test("mirror the board: the lowest string's path is the highest's", () => {
  for (const xMm of [0, 100, 328, 400]) {
    for (const [low, high] of [
      [0, 3],
      [1, 2],
    ] as const) {
      near(stringYMm(violin, low, xMm), -stringYMm(violin, high, xMm), roundingMm);
    }
  }
});

test.each([
  ["C", "C", -11],
  ["a", "A", 11],
  [" g ", "G", -11 / 3],
  ["C/G", "C/G", (-22 * 2) / 6],
  ["g / c", "C/G", (-22 * 2) / 6],
  ["G/D", "G/D", 0],
  ["A2", null, Number.NaN],
  ["A3", "A", 11],
  ["bass edge", "bass edge", -12],
  ["Bass_Edge", "bass edge", -12],
  ["TREBLE  EDGE", "treble edge", 12],
  ["treble-edge", "treble edge", 12],
  ["centre", "centre", 0],
  ["Center", "centre", 0],
  ["E", null, Number.NaN],
  ["C/C", null, Number.NaN],
  ["C/E", null, Number.NaN],
  ["C/G/D", null, Number.NaN],
  ["", null, Number.NaN],
  ["edge", null, Number.NaN],
])("the line `%s` of a cello", (written, name, yAtNutMm) => {
  const path = linePath(cello, written);
  expect(path?.name ?? null).toBe(name);
  if (path !== null) near(path.yAtMm(0), yAtNutMm, roundingMm);
});

test("only a line under a string names that string", () => {
  expect(linePath(cello, "D")?.stringIndex).toBe(2);
  expect(linePath(cello, "G/D")?.stringIndex).toBeNull();
  expect(linePath(cello, "bass edge")?.stringIndex).toBeNull();
  expect(linePath(cello, "centre")?.stringIndex).toBeNull();
});

test("edge lines run inside the outline by the inset, all along", () => {
  const inset = instrumentFrom({ instrument: "cello", edge_inset: "2" });
  near(linePath(inset, "treble edge")?.yAtMm(580) ?? 0, 30, roundingMm);
  near(linePath(inset, "bass edge")?.yAtMm(0) ?? 0, -13, roundingMm);
});

test("every line that is named leads to a path of that name", () => {
  for (const settings of [{ instrument: "violin" }, { instrument: "bass 5 strings" }, scordatura]) {
    const instrument = instrumentFrom(settings);
    for (const name of lineNames(instrument)) expect(linePath(instrument, name)?.name).toBe(name);
  }
  expect(lineNames(cello)).toEqual(["C", "C/G", "G", "G/D", "D", "D/A", "A", "bass edge", "treble edge", "centre"]);
});

const scordatura = { instrument: "cello", strings: "C G D G" };

test("two strings of one name are told apart by their octaves", () => {
  const retuned = instrumentFrom(scordatura);
  expect(retuned.strings).toEqual(["C", "G2", "D", "G3"]);
  expect(linePath(retuned, "G")).toBeNull();
  expect(linePath(retuned, "g2")?.stringIndex).toBe(1);
  expect(linePath(retuned, "G3")?.stringIndex).toBe(3);
  expect(linePath(retuned, "C/G2")?.name).toBe("C/G2");
});

test("a string named with its octave answers to its bare name as well", () => {
  const bass = instrumentFrom({ instrument: "bass", strings: "E1 A1 D2 G2" });
  expect(linePath(bass, "e")?.name).toBe("E1");
  expect(linePath(bass, "E1/A1")?.name).toBe("E1/A1");
});

test("the nearest string and the way to it, towards treble counted positive", () => {
  const nearest = nearestString(violin, { xMm: 0, yMm: -8 });
  expect(nearest.index).toBe(0);
  near(nearest.offsetMm, 0.25, roundingMm);
  const beyond = nearestString(violin, { xMm: 328, yMm: 20 });
  expect(beyond.index).toBe(3);
  near(beyond.offsetMm, 3.25, roundingMm);
});

test("mirror a place: the mirrored string is as near", () => {
  for (let yMm = -20; yMm <= 20; yMm += 0.7) {
    const here = nearestString(violin, { xMm: 90, yMm });
    const mirrored = nearestString(violin, { xMm: 90, yMm: -yMm });
    expect(mirrored.index).toBe(3 - here.index);
    near(mirrored.offsetMm, -here.offsetMm, roundingMm);
  }
});
