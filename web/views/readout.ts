/**
 * What is chosen, in one line of text: string, place, note, wood lost there, cut there.
 *
 * Examination and choice -> text. Wood lost is unworn less measured on the string's path; the cut is measured less target.
 */
import type { Examination } from "../../server/core/examination.ts";
import { valueAlong } from "../chart/along.ts";
import { nearestNote, positionName } from "../chart/board.ts";
import type { Choice } from "../chart/choice.ts";
import { depthText, placeText } from "../chart/format.ts";
import { noiseFloorMm } from "../chart/soundings.ts";

export function readoutText(examination: Examination, choice: Choice): string {
  const profile = examination.profiles[choice.string];
  const section = examination.sections[choice.crossline];
  if (profile === undefined || section === undefined) return "";
  const x = section.xMm;
  const at = (heightsMm: readonly number[]) => valueAlong(profile.xMm, heightsMm, x);
  const { note, semitone } = nearestNote(examination.instrument, choice.string, x);
  const wearMm = at(profile.unwornMm) - at(profile.measuredMm);
  const floorMm = noiseFloorMm(examination);
  const worn =
    Math.abs(wearMm) < floorMm
      ? `no wear beyond the noise (${depthText(floorMm)} mm)`
      : wearMm > 0
        ? `${depthText(wearMm)} mm lost`
        : `${depthText(-wearMm)} mm too high`;
  const cut =
    profile.targetMm === null ? [] : [`${depthText(at(profile.measuredMm) - at(profile.targetMm))} mm to take off`];
  return [
    `${profile.string} string`,
    `${placeText(x)} mm from the nut`,
    `${note}, ${positionName(examination.instrument, semitone)} position`,
    worn,
    ...cut,
  ].join(" · ");
}
