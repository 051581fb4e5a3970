/**
 * Whether the readings can carry an examination at all; if not, what they can't tell and what to read.
 *
 * Camber and wear between strings take at least three lines; hollow and its deepest point at least five crosslines; and the
 * ten numbers of the shape at least two readings each. And they must reach over the board: of what lies far beyond the last
 * reading nothing is known.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Fault } from "../fault.ts";
import type { Pattern } from "./patternOfReadings.ts";
import type { Readings } from "./readings.ts";

const fewest = { readings: 24, lines: 3, crosslines: 5 } as const;
/** A board's end may be this share of its length away from the nearest reading. */
const farthestEnd = 0.2;

export function tooFewFault(readings: Readings, pattern: Pattern, instrument: Instrument): Fault | null {
  const count = readings.readings.length;
  const positions = new Set(readings.readings.map((reading) => reading.xMm)).size;
  const fault = (code: string, saw: string, remedy: string): Fault => ({
    where: "readings",
    line: null,
    column: null,
    code,
    saw,
    remedy,
  });
  if (pattern.lines < fewest.lines) {
    const lines = pattern.lines === 1 ? "all readings lie on one line" : `all readings lie on ${pattern.lines} lines`;
    return fault(
      "too-few-lines",
      lines,
      "That shows the hollow along, but not the camber across, nor the twist, nor what is worn: read at least 3 lines, better 7 (under the strings and midway).",
    );
  }
  if (positions < fewest.crosslines) {
    return fault(
      "too-few-crosslines",
      `readings at ${positions} distance${positions === 1 ? "" : "s"} from the nut only`,
      "That shows the camber there, but neither the hollow along nor what is worn: read at least 5 crosslines, better 11.",
    );
  }
  if (count < fewest.readings) {
    return fault(
      "too-few-readings",
      `${count} readings`,
      `Fewer than ${fewest.readings} can't tell the board's own shape from wear: read at least 5 lines × 7 crosslines, better 7 × 11.`,
    );
  }
  const lengthMm = instrument.boardLengthMm.value;
  const xs = readings.readings.map((reading) => reading.xMm);
  const firstMm = xs.reduce((least, x) => Math.min(least, x), Number.POSITIVE_INFINITY);
  const lastMm = xs.reduce((most, x) => Math.max(most, x), Number.NEGATIVE_INFINITY);
  if (firstMm > farthestEnd * lengthMm || lastMm < (1 - farthestEnd) * lengthMm) {
    return fault(
      "part-of-the-board",
      `readings from ${Math.round(firstMm)} to ${Math.round(lastMm)} mm of a board of ${Math.round(lengthMm)} mm`,
      "What lies beyond them can't be told: read on to within a fifth of the length of both ends, or set board_length if the board is shorter.",
    );
  }
  return null;
}
