/**
 * How the store's workshop goes about it: where it reads, with what, and what it writes at the head of a file.
 */

import type { EverydayRound, Visit } from "../history.ts";
import { bass, smallCello, viola, violin } from "../plans.ts";
import type { Plan, Probe, Recipe, Rounds, Shape, WearMark, Writing } from "../recipe.ts";
import { fingerPit } from "../wear.ts";

/** Crosslines at the stopped notes of first position, where wear is, then evenly to the end. */
export const violinCrosslinesMm = [5, 20, 36, 52, 68, 83, 100, 122, 145, 170, 200, 232, 265];
export const violaCrosslinesMm = [5, 22, 41, 59, 77, 94, 125, 160, 195, 235, 288];
export const celloCrosslinesMm = [8, 40, 75, 110, 142, 173, 202, 240, 290, 350, 420, 495, 572];
export const smallCelloCrosslinesMm = [8, 35, 69, 101, 131, 159, 200, 255, 320, 390, 460, 525];
export const bassCrosslinesMm = [10, 60, 115, 167, 216, 270, 340, 430, 540, 690, 840];

export const sevenLines = (plan: Plan): string[] =>
  plan.strings.flatMap((string, at) => (at === 0 ? [string] : [`${plan.strings[at - 1]}/${string}`, string]));

export const rounds = (crosslinesMm: readonly number[], lines: readonly string[]): Rounds => ({
  crosslinesMm,
  lines,
  edgeInsetMm: 3,
  missing: [],
  repeated: [],
});

export const dialGauge: Probe = { tipRadiusMm: 1.5, noiseMm: 0.01, resolutionMm: 0.01 };

/** Settings that every file of the store states: what it is, its plan, its gauge. */
export function head(
  instrument: string,
  plan: Plan,
  probe: Probe,
  more: Readonly<Record<string, string>>,
): Writing["settings"] {
  return Object.entries({
    instrument,
    board_length: String(plan.lengthMm),
    width_nut: String(plan.widthNutMm),
    width_end: String(plan.widthEndMm),
    string_length: String(plan.stringLengthMm),
    spacing_nut: String(plan.spacingNutMm),
    spacing_bridge: String(plan.spacingBridgeMm),
    tip_radius: String(probe.tipRadiusMm),
    resolution: String(probe.resolutionMm),
    tension: "on",
    ...more,
  });
}

/** The shape the workshop aims at, as settings: the board's own when it was new. */
export function aim(shape: Shape): Record<string, string> {
  return {
    radius_nut: String(shape.radiusNutMm),
    radius_middle: String((shape.radiusNutMm + shape.radiusEndMm) / 2),
    radius_end: String(shape.radiusEndMm),
    hollow_lowest: String(shape.hollowLowestMm),
    hollow_highest: String(shape.hollowHighestMm),
  };
}

export const asGrid: Omit<Writing, "settings"> = { file: "grid", separator: ",", decimal: ".", unitMm: 1, decimals: 2 };
export const asList: Omit<Writing, "settings"> = { ...asGrid, file: "list" };

/** Finger pits, given as string, semitones above the open string, depth. */
export function pits(
  plan: Plan,
  size: { readonly halfLengthMm: number; readonly halfWidthMm: number },
  ...pressed: readonly (readonly [string: string, semitones: number, depthMm: number])[]
): WearMark[] {
  return pressed.map(([string, semitones, depthMm]) => fingerPit(plan, string, semitones, depthMm, size));
}

/**
 * An instrument that the store knows: its record says what it is, so the file says only what the gauge was. Seven lines at the
 * crosslines of its kind; or for a quick look gaps, with leaves in steps of 0.05 mm.
 */
export function everydayRound({ plan }: Recipe, { look }: Visit): EverydayRound {
  const { tipRadiusMm, resolutionMm } = dialGauge;
  const gauge =
    look === undefined ? { tip_radius: tipRadiusMm, resolution: resolutionMm } : { resolution: look.leafMm };
  return {
    rounds: rounds(crosslinesOf(plan), sevenLines(plan)),
    probe: dialGauge,
    writing: {
      ...(look === undefined ? asGrid : asList),
      settings: [...Object.entries(gauge).map(([key, mm]) => [key, String(mm)] as const), ["tension", "on"]],
    },
  };
}

function crosslinesOf(plan: Plan): readonly number[] {
  if (plan === violin) return violinCrosslinesMm;
  if (plan === viola) return violaCrosslinesMm;
  if (plan === bass) return bassCrosslinesMm;
  return plan === smallCello ? smallCelloCrosslinesMm : celloCrosslinesMm;
}
