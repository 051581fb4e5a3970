/**
 * The board seen from above: outline, string paths, named lines and stopped notes. Lengths in mm.
 */
import type { Line, Plan } from "./recipe.ts";

/** Half the board's width at a crossline. */
export function halfWidthMm(plan: Plan, xMm: number): number {
  return (plan.widthNutMm + ((plan.widthEndMm - plan.widthNutMm) * xMm) / plan.lengthMm) / 2;
}

/** y of a string at a crossline; strings stand evenly at nut and bridge and run straight between. */
export function stringYMm(plan: Plan, string: string, xMm: number): number {
  const place = plan.strings.indexOf(string);
  if (place < 0) throw new Error(`no string ${string} among ${plan.strings.join(" ")}`);
  const share = place / (plan.strings.length - 1) - 0.5;
  const spacingMm = plan.spacingNutMm + ((plan.spacingBridgeMm - plan.spacingNutMm) * xMm) / plan.stringLengthMm;
  return share * spacingMm;
}

/** y of a line of readings at a crossline. */
export function lineYMm(plan: Plan, line: Line, xMm: number, edgeInsetMm: number): number {
  if (typeof line === "number") return line;
  if (typeof line === "object") return hundredths(line.share * (halfWidthMm(plan, xMm) - edgeInsetMm));
  if (line === "centre") return 0;
  if (line === "bass edge") return edgeInsetMm - halfWidthMm(plan, xMm);
  if (line === "treble edge") return halfWidthMm(plan, xMm) - edgeInsetMm;
  const sides = line.split("/");
  return sides.reduce((sum, string) => sum + stringYMm(plan, string, xMm), 0) / sides.length;
}

/** Where the note so many semitones above the open string is stopped (equal temperament). */
export function stopXMm(plan: Plan, semitones: number): number {
  return plan.stringLengthMm * (1 - 2 ** (-semitones / 12));
}

/** As the bench would write it: to 0.01 mm. */
function hundredths(lengthMm: number): number {
  return Math.round(lengthMm * 100) / 100;
}
