/**
 * What is chosen on the drawing: one string and one crossline, the same in plan, profiles and sections.
 *
 * Both are places in the examination's lists: `string` in profiles (lowest first), `crossline` in sections (nut first).
 */
import type { Examination } from "../../server/core/examination.ts";
import { nearestString, type PlaceMm } from "./board.ts";

export type Choice = { readonly string: number; readonly crossline: number };

/** The string and crossline nearest to a place on the board. */
export function choiceAt(examination: Examination, [xMm, yMm]: PlaceMm): Choice {
  const distances = examination.sections.map((section) => Math.abs(section.xMm - xMm));
  return {
    string: nearestString(examination.instrument, xMm, yMm),
    crossline: Math.max(0, distances.indexOf(Math.min(...distances))),
  };
}

/** Where to begin: at the deepest place, else in the middle of the lowest string. */
export function firstChoice(examination: Examination): Choice {
  const { deepest } = examination;
  if (deepest !== null) return choiceAt(examination, [deepest.xMm, deepest.yMm]);
  return { string: 0, crossline: Math.floor(examination.sections.length / 2) };
}

/** A step up or down the strings, or along the crosslines, stopping at the last. */
export function step(examination: Examination, choice: Choice, strings: number, crosslines: number): Choice {
  const clamp = (value: number, count: number) => Math.min(Math.max(0, count - 1), Math.max(0, value));
  return {
    string: clamp(choice.string + strings, examination.instrument.strings.length),
    crossline: clamp(choice.crossline + crosslines, examination.sections.length),
  };
}
