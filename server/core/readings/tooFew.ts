/**
 * Whether the readings can carry a survey, or at least a quick look; if not, what they can't tell and what to read.
 *
 * A survey: camber and wear between strings take at least three lines; hollow and its deepest point at least five crosslines; and the
 * ten numbers of the shape at least two readings each. And they must reach over the board: of what lies far beyond the last
 * reading nothing is known. A quick look: three readings along a line, or three at a crossline.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Fault } from "../fault.ts";
import type { Gaps } from "./gaps.ts";
import type { Pattern } from "./patternOfReadings.ts";
import type { Readings } from "./readings.ts";

const fewest = { readings: 24, lines: 3, crosslines: 5 } as const;
/** A board's end may be this share of its length away from the nearest reading. */
const farthestEnd = 0.2;

export function isTooFewForSurvey({ readings }: Readings, pattern: Pattern): boolean {
  const positions = new Set(readings.map((reading) => reading.xMm)).size;
  return readings.length < fewest.readings || pattern.lines < fewest.lines || positions < fewest.crosslines;
}

export function partOfBoardFault({ readings }: Readings, instrument: Instrument): Fault | null {
  const lengthMm = instrument.boardLengthMm.value;
  const firstMm = readings.reduce((least, { xMm }) => Math.min(least, xMm), Number.POSITIVE_INFINITY);
  const lastMm = readings.reduce((most, { xMm }) => Math.max(most, xMm), Number.NEGATIVE_INFINITY);
  if (firstMm <= farthestEnd * lengthMm && lastMm >= (1 - farthestEnd) * lengthMm) return null;
  return fault(
    "part-of-the-board",
    `readings from ${Math.round(firstMm)} to ${Math.round(lastMm)} mm of a board of ${Math.round(lengthMm)} mm`,
    "What lies beyond them can't be told: read on to within a fifth of the length of both ends, or set board_length if the board is shorter.",
  );
}

/** For readings of which not even a quick look could be made. */
export function tooFewToLookFault({ readings }: Readings, pattern: Pattern): Fault {
  const count = readings.length;
  const lines = `${pattern.lines} ${pattern.lines === 1 ? "line" : "lines"}`;
  return fault(
    "too-few-readings",
    `${count} ${count === 1 ? "reading" : "readings"} on ${lines}`,
    "For a quick look read 3 lines × 5 crosslines (3 along one line tell its hollow, 3 across at one crossline its radius), or measure gaps under a straightedge; for a full survey 7 lines × 11 crosslines.",
  );
}

/** For gaps under a template that show nothing: it touches wherever it was looked at, or there is light both at edge and middle. */
export function tooFewGapsFault({ template }: Gaps): Fault {
  return fault(
    "too-few-gaps",
    `${template.length} ${template.length === 1 ? "gap" : "gaps"} under a template, and none under a straightedge`,
    "Measure three gaps across at a crossline, near both edges and in the middle (0 where the template touches), or gaps under a straightedge.",
  );
}

function fault(code: string, saw: string, remedy: string): Fault {
  return { where: "readings", line: null, column: null, code, saw, remedy };
}
