/**
 * Scales of the drawing: one x for plan and profiles, widths and heights in stated, rounded proportion to it.
 *
 * Room in px and instrument in mm -> scales. A board is twenty times as long as it is wide at the nut, so widths are drawn larger than
 * lengths by a rounded factor that the drawing states; drawing nearer, lengths catch up with widths until the plan is true. With
 * true widths the plan is to scale at any nearness.
 */
import { type ScaleLinear, scaleLinear } from "d3";
import type { Instrument } from "../../server/core/board/instrument.ts";
import type { Profile } from "../../server/core/examination.ts";
import { halfWidthMm } from "./board.ts";

export type Margins = { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };

/** Part of the board in view: how many times nearer than the whole, and where it begins. */
export type Nearness = { readonly times: number; readonly fromMm: number };

export const wholeBoard: Nearness = { times: 1, fromMm: 0 };

export type PlanScales = {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly margins: Margins;
  readonly x: ScaleLinear<number, number>;
  readonly y: ScaleLinear<number, number>;
  /** px per mm across over px per mm along. */
  readonly widthFactor: number;
};

const widthFactors = [1, 1.5, 2, 2.5, 3, 4] as const;
/** A nut narrower than this has no room for a line of soundings per string. */
const leastNutPx = 104;

export function planScales(
  instrument: Instrument,
  widthPx: number,
  margins: Margins,
  nearness: Nearness = wholeBoard,
  hasTrueWidths = false,
): PlanScales {
  const lengthMm = instrument.boardLengthMm.value;
  const roomPx = widthPx - margins.left - margins.right;
  const wholePxPerMm = roomPx / lengthMm;
  const nutMm = instrument.widthNutMm.value;
  const endMm = 2 * halfWidthMm(instrument, lengthMm);
  const wholeFactor = widthFactors.find((k) => nutMm * wholePxPerMm * k >= leastNutPx) ?? widthFactors.at(-1)!;
  const pxPerMm = wholePxPerMm * nearness.times;
  const widthFactor = hasTrueWidths ? 1 : Math.max(1, wholeFactor / nearness.times);
  const acrossPx = endMm * pxPerMm * widthFactor;
  const heightPx = Math.round(margins.top + acrossPx + margins.bottom);
  const lastMm = lengthMm - lengthMm / nearness.times;
  const fromMm = Math.min(Math.max(0, nearness.fromMm), lastMm);
  return {
    widthPx,
    heightPx,
    margins,
    x: scaleLinear([fromMm, fromMm + lengthMm / nearness.times], [margins.left, widthPx - margins.right]),
    y: scaleLinear([-endMm / 2, endMm / 2], [margins.top + acrossPx, margins.top]),
    widthFactor,
  };
}

const heightFactors = [2, 3, 4, 5, 6, 8, 10, 12, 15, 16, 20, 24, 25, 30, 36, 40, 50, 60] as const;

/** Largest rounded exaggeration at which the tallest of the given heights still fits its row. */
export function exaggeration(tallestMm: number, roomPx: number, pxPerMm: number): number {
  const fits = heightFactors.filter((factor) => tallestMm * pxPerMm * factor <= roomPx);
  return fits.at(-1) ?? heightFactors[0];
}

/** A profile levelled for drawing: heights above the line through the ends of the unworn surface, mm. */
export function levelled(profile: Profile): (heightsMm: readonly number[]) => number[] {
  const x = profile.xMm;
  const first = profile.unwornMm[0] ?? 0;
  const last = profile.unwornMm.at(-1) ?? 0;
  const run = (x.at(-1) ?? 1) - (x[0] ?? 0);
  return (heightsMm) => heightsMm.map((z, i) => z - first - ((last - first) * (x[i]! - x[0]!)) / run);
}
