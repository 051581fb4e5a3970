/**
 * What is chosen on the drawing: one string and one crossline, the same in plan, profiles and sections, and across the reading that was pointed at.
 *
 * `string` is a place in profiles (lowest first), `crossline` in sections (nut first). `readAtMm` is the y of the reading nearest to the
 * place that was pointed at; null where string and crossline were stepped to: then the string's own path is meant.
 */
import type { Examination, Point } from "../../server/core/examination.ts";
import { nearestString, type PlaceMm } from "./board.ts";

export type Choice = { readonly string: number; readonly crossline: number; readonly readAtMm: number | null };

/** A reading belongs to a crossline this near, mm: rows are read with a bench's care. */
export const nearAlongMm = 2;
/** Further from every reading than this across, no reading was meant, mm. */
const meantMm = 4;

/** The string, crossline and reading nearest to a place on the board. */
export function choiceAt(examination: Examination, [xMm, yMm]: PlaceMm): Choice {
  const distances = examination.sections.map((section) => Math.abs(section.xMm - xMm));
  const crossline = Math.max(0, distances.indexOf(Math.min(...distances)));
  const sectionMm = examination.sections[crossline]?.xMm ?? xMm;
  let nearest: Point | null = null;
  for (const point of examination.points) {
    if (Math.abs(point.givenXMm - sectionMm) > nearAlongMm && Math.abs(point.xMm - sectionMm) > nearAlongMm) continue;
    if (nearest === null || Math.abs(point.yMm - yMm) < Math.abs(nearest.yMm - yMm)) nearest = point;
  }
  return {
    string: nearestString(examination.instrument, xMm, yMm),
    crossline,
    readAtMm: nearest !== null && Math.abs(nearest.yMm - yMm) <= meantMm ? nearest.yMm : null,
  };
}

/** Where to begin: at the deepest place, else in the middle of the lowest string. */
export function firstChoice(examination: Examination): Choice {
  const { deepest } = examination;
  if (deepest !== null) return choiceAt(examination, [deepest.xMm, deepest.yMm]);
  return { string: 0, crossline: Math.floor(examination.sections.length / 2), readAtMm: null };
}

/** A step up or down the strings, or along the crosslines, stopping at the last. */
export function step(examination: Examination, choice: Choice, strings: number, crosslines: number): Choice {
  const clamp = (value: number, count: number) => Math.min(Math.max(0, count - 1), Math.max(0, value));
  return {
    string: clamp(choice.string + strings, examination.instrument.strings.length),
    crossline: clamp(choice.crossline + crosslines, examination.sections.length),
    readAtMm: null,
  };
}
