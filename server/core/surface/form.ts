/**
 * Form: the long waves of a board planed by hand, which are workmanship and no wear.
 *
 * A real board was never the ideal shape: it departs from it by some hundredths of a millimetre in waves as long as a quarter of the
 * board and more, which change slowly across. They are written as
 *
 *   f(u, v) = Σ a_km · cos(kπu) · q_m(v),   k = 2 … 8,  q = 1, v, v² − 0.4
 *
 * u along (0 nut, 1 bridge end), v across (−1 on the lowest string's path, 1 on the highest's, and no farther than ±1.2: where
 * hardly anybody reads, a wave is carried on as it is). Each a_km is expected to be about
 * nothing, give or take `spreadMm`, which the readings themselves tell; so neither a pit, which is shorter, nor broad wear,
 * which is deeper, can pass for form. Heights in mm, positive: wood stands above the ideal shape.
 */
import type { SurfacePlan } from "./idealSurface.ts";

const shortest = 8;
const longest = 2;
const across = 3;
const widest = 1.2;

export const formModes = (shortest - longest + 1) * across;

/** Coefficients a_km in mm, m running fastest; none: no form. */
export type Form = Float64Array;

export const noForm: Form = new Float64Array(0);

/** The modes' heights at a place, written into `row` from `offset`. */
export function writeFormModes(plan: SurfacePlan, xMm: number, yMm: number, row: Float64Array, offset: number): void {
  const u = xMm / plan.lengthMm;
  const lowest = plan.lowest.nutMm + (plan.lowest.endMm - plan.lowest.nutMm) * u;
  const highest = plan.highest.nutMm + (plan.highest.endMm - plan.highest.nutMm) * u;
  const v = Math.min(Math.max((2 * (yMm - lowest)) / (highest - lowest) - 1, -widest), widest);
  let at = offset;
  for (let k = longest; k <= shortest; k += 1) {
    const along = Math.cos(k * Math.PI * u);
    row[at] = along;
    row[at + 1] = along * v;
    row[at + 2] = along * (v * v - 0.4);
    at += across;
  }
}

/** Height of the form at a place, mm; 0 where there is none. */
export function formMm(plan: SurfacePlan, form: Form, xMm: number, yMm: number): number {
  if (form.length === 0) return 0;
  const row = new Float64Array(formModes);
  writeFormModes(plan, xMm, yMm, row, 0);
  return form.reduce((sum, coefficient, i) => sum + coefficient * row[i], 0);
}
