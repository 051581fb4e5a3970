/**
 * The board's plan as the drawing needs it: outline, string paths, stopped notes.
 *
 * Instrument -> mm. x from the nut, y towards treble. The outline tapers straight; string i runs straight from nut to bridge;
 * the note n semitones above the open string is stopped at S(1 − 2^(−n/12)), S the vibrating length (equal temperament).
 */
import type { Instrument } from "../../server/core/board/instrument.ts";

export type PlaceMm = readonly [xMm: number, yMm: number];

export function halfWidthMm(instrument: Instrument, xMm: number): number {
  const { boardLengthMm, widthNutMm, widthEndMm } = instrument;
  return (widthNutMm.value + ((widthEndMm.value - widthNutMm.value) * xMm) / boardLengthMm.value) / 2;
}

/** Corners of the outline: nut bass, nut treble, end treble, end bass. */
export function outlineMm(instrument: Instrument): readonly PlaceMm[] {
  const length = instrument.boardLengthMm.value;
  const nut = halfWidthMm(instrument, 0);
  const end = halfWidthMm(instrument, length);
  return [
    [0, -nut],
    [0, nut],
    [length, end],
    [length, -end],
  ];
}

/** y of a string's path at x; strings counted from the lowest, 0. */
export function stringYMm(instrument: Instrument, string: number, xMm: number): number {
  const { spacingNutMm, spacingBridgeMm, stringLengthMm } = instrument;
  const spacing = spacingNutMm.value + ((spacingBridgeMm.value - spacingNutMm.value) * xMm) / stringLengthMm.value;
  const last = Math.max(1, instrument.strings.length - 1);
  return spacing * (string / last - 0.5);
}

/** The string whose path passes nearest to a place. */
export function nearestString(instrument: Instrument, xMm: number, yMm: number): number {
  const distances = instrument.strings.map((_, i) => Math.abs(stringYMm(instrument, i, xMm) - yMm));
  return distances.indexOf(Math.min(...distances));
}

/** Distance from the nut of the note `semitone` above the open string. */
export const stoppedNoteMm = (instrument: Instrument, semitone: number): number =>
  instrument.stringLengthMm.value * (1 - 2 ** (-semitone / 12));

const pitchNames = ["C", "C sharp", "D", "E flat", "E", "F", "F sharp", "G", "G sharp", "A", "B flat", "B"] as const;

/** The stopped note nearest to a place along a string, in semitones above the open string; nothing is stopped below the first. */
export function nearestNote(instrument: Instrument, string: number, xMm: number): { semitone: number; note: string } {
  const length = instrument.stringLengthMm.value;
  const semitone = Math.max(1, Math.round(-12 * Math.log2(1 - Math.min(xMm / length, 0.95))));
  const pitch = (instrument.openPitches[string] ?? 0) + semitone;
  return { semitone, note: pitchNames[((pitch % 12) + 12) % 12] ?? "" };
}

/** The lowest position that holds a stopped note, as the instrument's table has it. */
export function positionName(instrument: Instrument, semitone: number): string {
  const reached = instrument.positions.filter((position) => position.fromSemitone <= semitone);
  return (reached.at(-1) ?? instrument.positions[0])?.name ?? "";
}
