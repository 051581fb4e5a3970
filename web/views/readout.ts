/**
 * What is chosen, in one line of text: string, place, note, wood lost there, cut there.
 *
 * Examination and choice -> text. Where a reading stands at the place (repeats averaged), it is that reading's; else it is interpolated along
 * the string's profile, and the line says so. Wood lost is unworn less measured, the cut measured less target; mm.
 */
import type { Examination, Profile } from "../../server/core/examination.ts";
import { valueAlong } from "../chart/along.ts";
import { nearestNote, positionName } from "../chart/board.ts";
import type { Choice } from "../chart/choice.ts";
import { depthText, placeText } from "../chart/format.ts";
import { noiseFloorMm } from "../chart/soundings.ts";

type Found = { readonly wearMm: number; readonly cutMm: number | null; readonly isRead: boolean };

export function readoutText(examination: Examination, choice: Choice): string {
  const profile = examination.profiles[choice.string];
  const section = examination.sections[choice.crossline];
  if (profile === undefined || section === undefined) return "";
  const { note, semitone } = nearestNote(examination.instrument, choice.string, section.xMm);
  const found = readAt(examination, profile, section.xMm) ?? betweenReadings(profile, section.xMm);
  return [
    `${profile.string} string`,
    `${placeText(section.xMm)} mm from the nut`,
    `${note}, ${positionName(examination.instrument, semitone)} position`,
    `${wearText(found.wearMm, noiseFloorMm(examination))}${found.isRead ? "" : ", between readings"}`,
    ...(found.cutMm === null ? [] : [`${depthText(found.cutMm)} mm to take off`]),
  ].join(" · ");
}

/** A reading belongs to a place within half the breadth of a fingertip's groove across and a bench's care along, mm. */
const nearAlongMm = 2;
const nearAcrossMm = 1.5;

function readAt(examination: Examination, profile: Profile, xMm: number): Found | null {
  const yMm = valueAlong(profile.xMm, profile.yMm, xMm);
  const here = examination.points.filter(
    (point) => Math.abs(point.xMm - xMm) <= nearAlongMm && Math.abs(point.yMm - yMm) <= nearAcrossMm,
  );
  if (here.length === 0) return null;
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const cuts = here.flatMap((point) => (point.cutMm === null ? [] : [point.cutMm]));
  return {
    wearMm: mean(here.map((point) => point.wearMm)),
    cutMm: cuts.length === 0 ? null : mean(cuts),
    isRead: true,
  };
}

function betweenReadings(profile: Profile, xMm: number): Found {
  const at = (heightsMm: readonly number[]) => valueAlong(profile.xMm, heightsMm, xMm);
  const measuredMm = at(profile.measuredMm);
  return {
    wearMm: at(profile.unwornMm) - measuredMm,
    cutMm: profile.targetMm === null ? null : measuredMm - at(profile.targetMm),
    isRead: false,
  };
}

function wearText(wearMm: number, floorMm: number): string {
  if (Math.abs(wearMm) < floorMm) return `no wear beyond the noise (${depthText(floorMm)} mm)`;
  return wearMm > 0 ? `${depthText(wearMm)} mm lost` : `${depthText(-wearMm)} mm too high`;
}
