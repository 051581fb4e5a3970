/**
 * Whether the readings can carry an examination at all; if not, what they can't tell and what to read.
 *
 * Camber and wear between strings take at least three lines; hollow and its deepest point at least five crosslines; and the
 * ten numbers of the shape at least two readings each.
 */
import type { Fault } from "../fault.ts";
import type { Pattern } from "./patternOfReadings.ts";
import type { Readings } from "./readings.ts";

const fewest = { readings: 24, lines: 3, crosslines: 5 } as const;

export function tooFewFault(readings: Readings, pattern: Pattern): Fault | null {
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
  return null;
}
