/**
 * Stopped notes: where on the board a note is stopped, and what a player calls a place.
 *
 * In equal temperament the note n semitones above the open string of length S is stopped S(1 - 2^(-n/12)) from the nut;
 * the octave (n = 12) at S/2. Players of bowed strings shade their notes, so these are places to look for wear, not
 * marks of intonation. Lengths in mm, pitches in semitones above C0. Checked against a published table of stop positions.
 */
import type { PlaceName } from "../examination.ts";
import type { Place } from "../units.ts";
import type { Instrument } from "./instrument.ts";
import { nearestString } from "./stringPaths.ts";

/** Distance from the nut. stopMm(328, 12) = 164. */
export function stopMm(stringLengthMm: number, semitone: number): number {
  return stringLengthMm * (1 - 2 ** (-semitone / 12));
}

/** Semitones above the open string, as a fraction where it lies between notes; negative behind the nut, infinite from the bridge on. */
export function semitoneAt(stringLengthMm: number, xMm: number): number {
  return xMm >= stringLengthMm ? Number.POSITIVE_INFINITY : -12 * Math.log2(1 - xMm / stringLengthMm);
}

const noteNames = ["C", "C sharp", "D", "E flat", "E", "F", "F sharp", "G", "G sharp", "A", "B flat", "B"] as const;

/** Name of a note without its octave. noteName(57) = "A" (A4, 440 Hz). */
export function noteName(semitonesAboveC0: number): string {
  return noteNames[((semitonesAboveC0 % 12) + 12) % 12] ?? "";
}

/** Three octaves: no board reaches farther, and a place past the bridge still gets a name. */
const highestSemitone = 36;

/**
 * A place in a player's words: nearest string, nearest stopped note on it, lowest position that holds the note.
 * Nearer to the nut than the first stopped note it is still called by that note: nothing is stopped below it.
 */
export function namePlace(
  instrument: Instrument,
  place: Place,
): PlaceName & { readonly stringIndex: number; readonly semitone: number } {
  const stringIndex = nearestString(instrument, place).index;
  const exact = semitoneAt(instrument.stringLengthMm.value, place.xMm);
  const semitone = Math.min(highestSemitone, Math.max(1, Math.round(exact)));
  return {
    string: instrument.strings[stringIndex] ?? "",
    note: noteName((instrument.openPitches[stringIndex] ?? 0) + semitone),
    position: positionName(instrument, semitone),
    stringIndex,
    semitone,
  };
}

function positionName(instrument: Instrument, semitone: number): string {
  const reached = instrument.positions.filter((position) => position.fromSemitone <= semitone);
  return (reached.at(-1) ?? instrument.positions[0])?.name ?? "";
}
