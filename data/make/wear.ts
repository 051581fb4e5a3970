/**
 * Wear as smooth fields of missing wood: pits where fingers press, ruts where strings rub, broad wear as a wide pit.
 *
 * In: marks. Out: depth of missing wood anywhere, mm, measured vertically, never negative but for humps.
 * Each mark is a raised cosine that ends at its own rim, so that what lies outside is truly unworn.
 */
import { stopXMm, stringYMm } from "./plan.ts";
import type { Plan, WearMark } from "./recipe.ts";

export type WearAt = (xMm: number, yMm: number) => number;

export function wearField(plan: Plan, marks: readonly WearMark[]): WearAt {
  return (xMm, yMm) => marks.reduce((sum, mark) => sum + markMm(plan, mark, xMm, yMm), 0);
}

function markMm(plan: Plan, mark: WearMark, xMm: number, yMm: number): number {
  if (mark.mark === "pit") {
    const along = (xMm - mark.xMm) / mark.halfLengthMm;
    const across = (yMm - mark.yMm) / mark.halfWidthMm;
    return mark.depthMm * raisedCosine(Math.sqrt(along * along + across * across));
  }
  const across = (yMm - stringYMm(plan, mark.string, xMm)) / (mark.widthMm / 2);
  // Full depth over the middle 60 % of the rut, fading to nothing at its ends.
  const fromMiddle = Math.abs((2 * xMm - mark.fromMm - mark.toMm) / (mark.toMm - mark.fromMm));
  return mark.depthMm * raisedCosine(across) * raisedCosine(Math.max(0, (fromMiddle - 0.6) / 0.4));
}

/** 1 in the middle, ½ half-way, 0 from the rim on. */
function raisedCosine(r: number): number {
  return Math.abs(r) >= 1 ? 0 : (1 + Math.cos(Math.PI * r)) / 2;
}

/** A finger pit at a stopped note, under the string: `aside` moves it across, in widths of the gap to the next string. */
export function fingerPit(
  plan: Plan,
  string: string,
  semitones: number,
  depthMm: number,
  size: { readonly halfLengthMm: number; readonly halfWidthMm: number },
  aside = 0,
): WearMark {
  const xMm = stopXMm(plan, semitones);
  const gapMm = (stringYMm(plan, plan.strings[1]!, xMm) - stringYMm(plan, plan.strings[0]!, xMm)) * aside;
  return { mark: "pit", xMm, yMm: stringYMm(plan, string, xMm) + gapMm, ...size, depthMm };
}

/** A string's rut between two stopped notes. */
export function stringRut(
  plan: Plan,
  string: string,
  semitones: readonly [number, number],
  widthMm: number,
  depthMm: number,
): WearMark {
  return {
    mark: "rut",
    string,
    fromMm: stopXMm(plan, semitones[0]),
    toMm: stopXMm(plan, semitones[1]),
    widthMm,
    depthMm,
  };
}
