/**
 * The long, low waves that a hand plane leaves: added to the ideal shape, part of the board as it was before anyone played on it.
 *
 * In: plan and waves. Out: height of the waves anywhere on the board, mm; 0 on average along a whole wavelength.
 * Each is a sine along the board whose phase turns steadily from the bass edge to the treble edge, so that it changes slowly across.
 */
import { halfWidthMm } from "./plan.ts";
import type { Plan, Wave } from "./recipe.ts";
import type { HeightAt } from "./shape.ts";

export function wavesMm(plan: Plan, waves: readonly Wave[]): HeightAt {
  return (xMm, yMm) =>
    waves.reduce((sum, { amplitudeMm, lengthMm, phaseRad, turnRad }) => {
      const across = yMm / halfWidthMm(plan, xMm);
      return sum + amplitudeMm * Math.sin((2 * Math.PI * xMm) / lengthMm + phaseRad + (turnRad * across) / 2);
    }, 0);
}
