/**
 * What is chosen, in one line of text: string, place, note, wood lost there, cut there.
 *
 * Examination and choice -> text. Where a reading stands at the place (repeats averaged), it is that reading's; else it is interpolated along
 * the string's profile, and the line says so. Wood lost is unworn less measured, the cut measured less target; mm.
 */
import type { Examination, Point, Profile, Section } from "../../server/core/examination.ts";
import { valueAlong } from "../chart/along.ts";
import { nearestNote, positionName } from "../chart/board.ts";
import { type Choice, nearAlongMm } from "../chart/choice.ts";
import { depthText, placeText } from "../chart/format.ts";
import { noiseFloorMm } from "../chart/soundings.ts";

type Found = {
  readonly wearMm: number;
  /** Wear of each reading of the place. */
  readonly readMm: readonly number[];
  readonly cutMm: number | null;
  readonly isRead: boolean;
  readonly isBeside: boolean;
  readonly atLeast: boolean;
};

/** A reading this near to a string's path is on the string: half the breadth of a fingertip's groove, mm. */
const onStringMm = 1.5;

export function readoutText(examination: Examination, choice: Choice): string {
  const profile = examination.profiles[choice.string];
  const section = examination.sections[choice.crossline];
  if (profile === undefined || section === undefined) return "";
  const { note, semitone } = nearestNote(examination.instrument, choice.string, section.xMm);
  const found = readAt(examination, profile, section, choice.readAtMm) ?? betweenReadings(profile, section.xMm);
  return [
    `${found.isBeside ? "beside the " : ""}${profile.string} string`,
    `${placeText(section.xMm)} mm from the nut`,
    `${note}, ${positionName(examination.instrument, semitone)} position`,
    `${wearText(found, noiseFloorMm(examination))}${found.isRead ? "" : ", between readings"}`,
    ...(found.cutMm === null ? [] : [`${depthText(found.cutMm)} mm to take off`]),
  ].join(" · ");
}

function readAt(examination: Examination, profile: Profile, section: Section, readAtMm: number | null): Found | null {
  const pathMm = valueAlong(profile.xMm, profile.yMm, section.xMm);
  const yMm = readAtMm ?? pathMm;
  const awayMm = (point: Point) => Math.hypot(point.xMm - section.xMm, point.yMm - yMm);
  let nearest: Point | null = null;
  for (const point of examination.points) {
    if (Math.abs(point.xMm - section.xMm) > nearAlongMm || Math.abs(point.yMm - yMm) > onStringMm) continue;
    if (nearest === null || awayMm(point) < awayMm(nearest)) nearest = point;
  }
  if (nearest === null) return null;
  const { givenXMm, givenYMm, xMm } = nearest;
  const here = examination.points.filter((point) => point.givenXMm === givenXMm && point.givenYMm === givenYMm);
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const cuts = here.flatMap((point) => (point.cutMm === null ? [] : [point.cutMm]));
  return {
    wearMm: mean(here.map((point) => point.wearMm)),
    readMm: here.map((point) => point.wearMm),
    cutMm: cuts.length === 0 ? null : mean(cuts),
    isRead: true,
    isBeside: Math.abs(nearest.yMm - pathMm) > onStringMm,
    atLeast: examination.wornPlaces.some((place) => place.atLeast && holds(place.xMm, xMm) && holds(place.yMm, yMm)),
  };
}

function betweenReadings(profile: Profile, xMm: number): Found {
  const at = (heightsMm: readonly number[]) => valueAlong(profile.xMm, heightsMm, xMm);
  const measuredMm = at(profile.measuredMm);
  return {
    wearMm: at(profile.unwornMm) - measuredMm,
    readMm: [],
    cutMm: profile.targetMm === null ? null : measuredMm - at(profile.targetMm),
    isRead: false,
    isBeside: false,
    atLeast: false,
  };
}

function wearText({ wearMm, readMm, atLeast }: Found, floorMm: number): string {
  if (Math.abs(wearMm) < floorMm) return `no wear beyond the noise (${depthText(floorMm)} mm)`;
  if (wearMm < 0) return `${depthText(-wearMm)} mm too high`;
  const repeats =
    readMm.length < 2 ? "" : ` (mean of ${readMm.length} readings, the deepest ${depthText(Math.max(...readMm))})`;
  return `${atLeast ? "at least " : ""}${depthText(wearMm)} mm lost${repeats}`;
}

const holds = ([from, to]: readonly [number, number], value: number): boolean => value >= from && value <= to;
