/**
 * Whether a fitted surface can be a fingerboard's: what fits best may still be nonsense. Lengths in mm.
 */
import type { SurfacePlan, SurfaceShape } from "./idealSurface.ts";

/** Radii that a fingerboard can have, mm; beyond, the readings are of something else, or their sign or unit is wrong. */
const possibleRadiusMm = [12, 1000] as const;
/** With fewer readings than this on it, a surface is none. */
const leastUnwornShare = 0.25;

/** Why a surface that fits best is still not a board's, in words; null where it may be one. */
export function whyNoBoard(plan: SurfacePlan, shape: SurfaceShape, unwornShare: number): string | null {
  const radii = [shape.radiusNutMm, shape.radiusMiddleMm, shape.radiusEndMm];
  const [smallest, largest] = possibleRadiusMm;
  if (radii.some((radius) => !(radius >= smallest && radius <= largest))) {
    return "they don't show a board that is arched across; is the sign right (`reads`), and the unit?";
  }
  if (Math.abs(shape.pitch) * plan.lengthMm > plan.lengthMm / 4) {
    return "they climb or fall too steeply along the board; is the unit right?";
  }
  if (unwornShare < leastUnwornShare) {
    return "hardly any of them lie on one arched and hollow surface; are they all of one set-up, and the lines in the right order?";
  }
  return null;
}
