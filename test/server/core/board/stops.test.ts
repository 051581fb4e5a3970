/** Where notes are stopped, and what a player calls a place. */
import { expect, test } from "vitest";
import { namePlace, noteName, semitoneAt, stopMm } from "../../../../server/core/board/stops.ts";
import { stringYMm } from "../../../../server/core/board/stringPaths.ts";
import { near } from "../../../support/near.ts";
import { instrumentFrom } from "./boards.ts";

const violin = instrumentFrom({ instrument: "violin" });
const cello = instrumentFrom({ instrument: "cello" });
const bass = instrumentFrom({ instrument: "bass" });
const fiveStringBass = instrumentFrom({ instrument: "bass 5 strings" });

function stoppedOn(instrument: typeof violin, stringIndex: number, semitone: number) {
  const xMm = stopMm(instrument.stringLengthMm.value, semitone);
  return namePlace(instrument, { xMm, yMm: stringYMm(instrument, stringIndex, xMm) });
}

test("a violin's octave is stopped at half its string length", () => {
  // Exact: 2^-1 is.
  expect(stopMm(328, 12)).toBe(164);
  expect(stopMm(328, 24)).toBe(246);
  expect(stopMm(328, 0)).toBe(0);
});

test("a place and its semitone lead back to each other", () => {
  for (let semitone = 0; semitone <= 30; semitone++) {
    // Condition of the inverse: 2^(30/12) = 5.7 times rounding, twelve times over.
    near(semitoneAt(690, stopMm(690, semitone)), semitone, 1e-12, `semitone ${semitone}`);
  }
  expect(semitoneAt(690, 690)).toBe(Number.POSITIVE_INFINITY);
  expect(semitoneAt(690, 800)).toBe(Number.POSITIVE_INFINITY);
  expect(semitoneAt(690, -10)).toBeLessThan(0);
});

test("notes have their names: A4 is 57 semitones above C0", () => {
  expect(noteName(57)).toBe("A");
  expect([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11].map(noteName)).toEqual([
    "C",
    "C sharp",
    "D",
    "E flat",
    "E",
    "F",
    "F sharp",
    "G",
    "G sharp",
    "A",
    "B flat",
    "B",
  ]);
  expect(noteName(-1)).toBe("B");
});

test.each([
  // board, string, semitones above it, note, position (common practice, no source)
  ["violin", violin, "G", 2, "A", "first"],
  ["violin", violin, "E", 1, "F", "first"],
  ["violin", violin, "D", 7, "A", "first"],
  ["violin", violin, "A", 8, "F", "second"],
  ["violin", violin, "E", 10, "D", "third"],
  ["violin", violin, "E", 12, "E", "fourth"],
  ["cello", cello, "C", 1, "C sharp", "half"],
  ["cello", cello, "C", 4, "E", "first"],
  ["cello", cello, "A", 2, "B", "first"],
  ["cello", cello, "A", 3, "C", "first"],
  ["cello", cello, "G", 7, "D", "second"],
  ["cello", cello, "D", 10, "C", "fourth"],
  ["cello", cello, "A", 14, "B", "thumb"],
  ["bass", bass, "E", 1, "F", "half"],
  ["bass", bass, "E", 3, "G", "first"],
  ["bass", bass, "G", 12, "G", "thumb"],
  ["five-string bass", fiveStringBass, "B", 1, "C", "half"],
] as const)("on a %s, %s string", (_, instrument, string, semitone, note, position) => {
  const place = stoppedOn(instrument, instrument.strings.indexOf(string), semitone);
  expect(place).toEqual({
    string,
    note,
    position,
    stringIndex: instrument.strings.indexOf(string),
    semitone,
  });
});

test("close to the nut a place is called by the first stopped note", () => {
  expect(namePlace(cello, { xMm: 2, yMm: 9 })).toMatchObject({ string: "A", note: "B flat", semitone: 1 });
  expect(namePlace(cello, { xMm: -3, yMm: -9 })).toMatchObject({ string: "C", note: "C sharp", semitone: 1 });
});

test("a place between two notes takes the nearer one", () => {
  const between = (stopMm(690, 4) + stopMm(690, 5)) / 2;
  expect(namePlace(cello, { xMm: between - 2, yMm: 0.1 }).semitone).toBe(4);
  expect(namePlace(cello, { xMm: between + 2, yMm: 0.1 }).semitone).toBe(5);
});

test("past the bridge nothing is stopped: the place keeps the last name there is, three octaves up", () => {
  expect(namePlace(cello, { xMm: 690, yMm: 20 })).toMatchObject({ semitone: 36, note: "A", position: "thumb" });
});

test("every place of every board has a string, a note and a position, even beyond the bridge", () => {
  for (const instrument of [violin, cello, bass, fiveStringBass]) {
    for (const xMm of [-5, 0, 100, instrument.boardLengthMm.value, instrument.stringLengthMm.value, 5000]) {
      const { string, note, position } = namePlace(instrument, { xMm, yMm: 3 });
      expect([string, note, position].every((word) => word !== "")).toBe(true);
    }
  }
});
