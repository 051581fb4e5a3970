/**
 * Thickness at both edges and over the hollowed underside, as a calliper reads it: noise, then the nearest 0.05 mm.
 *
 * In: wood, wear, a random source. Out: true thickness and calliper reading at each place, mm.
 */
import { halfWidthMm } from "./plan.ts";
import type { Random } from "./random.ts";
import type { Plan, Wood } from "./recipe.ts";
import type { WearAt } from "./wear.ts";

export type ThicknessTruth = {
  readonly xMm: number;
  readonly side: "bass" | "treble" | "centre";
  readonly thicknessMm: number;
  readonly readMm: number;
};

const calliperStepMm = 0.05;

export function calliperReadings(plan: Plan, wood: Wood, wearMm: WearAt, random: Random): ThicknessTruth[] {
  const read = (xMm: number, side: ThicknessTruth["side"], thicknessMm: number): ThicknessTruth => ({
    xMm,
    side,
    thicknessMm,
    readMm: Math.round((thicknessMm + wood.noiseMm * random.normal()) / calliperStepMm) * calliperStepMm,
  });
  return wood.atMm.flatMap((xMm) => {
    const u = xMm / plan.lengthMm;
    const edgeMm = halfWidthMm(plan, xMm);
    const bassMm = wood.bassNutMm + (wood.bassEndMm - wood.bassNutMm) * u - wearMm(xMm, -edgeMm);
    const trebleMm = wood.trebleNutMm + (wood.trebleEndMm - wood.trebleNutMm) * u - wearMm(xMm, edgeMm);
    const places = [read(xMm, "bass", bassMm), read(xMm, "treble", trebleMm)];
    if (wood.centre === null || xMm < wood.centre.fromMm) return places;
    return [...places, read(xMm, "centre", wood.centre.thicknessMm - wearMm(xMm, 0))];
  });
}
