/**
 * How far a surface is from the true unworn board: over 24 × 9 places that share the board evenly out, inside its outline.
 *
 * In: plan, surface, truth. Out: root mean square and mean of surface less truth, mm (positive: the surface floats above it).
 */
import { halfWidthMm } from "../../../data/make/plan.ts";
import type { Plan } from "../../../data/make/recipe.ts";
import type { HeightAt } from "../../../data/make/shape.ts";
import { mean, rms } from "./figures.ts";

const along = 24;
const across = 9;

export type SurfaceError = { readonly rmsMm: number; readonly meanMm: number };

export function surfaceError(plan: Plan, surface: HeightAt, truth: HeightAt): SurfaceError {
  const offMm: number[] = [];
  for (let i = 0; i < along; i++) {
    const xMm = (plan.lengthMm * (i + 0.5)) / along;
    for (let j = 0; j < across; j++) {
      const yMm = halfWidthMm(plan, xMm) * ((2 * j + 1) / across - 1);
      offMm.push(surface(xMm, yMm) - truth(xMm, yMm));
    }
  }
  return { rmsMm: rms(offMm), meanMm: mean(offMm) };
}
