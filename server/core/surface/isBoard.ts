/**
 * Whether a fitted surface can be a fingerboard's: what fits best may still be nonsense. Lengths in mm.
 *
 * Where none could be fitted at all, a plane with a bow along and a bow across still can: readings that rise towards the edges have
 * their sign the wrong way round, the commonest slip with a gauge that reads depth.
 */
import { solveLeastSquares } from "../maths/leastSquares.ts";
import type { Readings } from "../readings/readings.ts";
import type { SurfacePlan, SurfaceShape } from "./idealSurface.ts";

/** Radii that a fingerboard can have, mm; beyond, the readings are of something else, or their sign or unit is wrong. */
const possibleRadiusMm = [12, 1000] as const;
/** With fewer readings than this on it, a surface is none. */
const leastUnwornShare = 0.25;

/** Readings that scatter by more than this about the best surface, mm, are not of one: a careless rail is ten times better. */
const mostNoiseMm = 0.3;

export const notArched = "they don't show a board that is arched across; is the sign right (`reads`), and the unit?";

/** A bow across counts from so many of its standard uncertainties on: worn and wavy boards scatter about a bow. */
const certainBow = 3;

/**
 * Whether readings rise towards both edges, as those of a board do whose sign is the wrong way round. Of several set-ups, each with a
 * height of its own, that can't be said.
 */
export function risesToItsEdges({ readings, setups }: Readings): boolean {
  if (setups.length > 1) return false;
  const bowed = solveLeastSquares(
    {
      rows: readings.length,
      columns: 5,
      entries: Float64Array.from(readings.flatMap(({ xMm, yMm }) => [1, xMm, xMm ** 2, yMm, yMm ** 2])),
    },
    Float64Array.from(readings, ({ gaugeMm }) => gaugeMm),
  );
  if (bowed.outcome === "undetermined") return false;
  const across = bowed.coefficients[4];
  const uncertainty = Math.sqrt((bowed.unscaledCovariance[24] * bowed.sumOfSquares) / bowed.degreesOfFreedom);
  return across > certainBow * uncertainty;
}

/** Why no surface could be fitted at all, in words. */
export function whyNotFitted(readings: Readings): string {
  if (risesToItsEdges(readings)) return notArched;
  return "they lie on too few lines or crosslines, off the part of the board that a setting speaks of, or in set-ups that nothing ties together; or that the unit, the order of the lines or the tip is not the one that was set.";
}

/** Why a surface that fits best is still not a board's, in words; null where it may be one. */
export function whyNoBoard(
  plan: SurfacePlan,
  shape: SurfaceShape,
  unwornShare: number,
  noiseMm: number,
): string | null {
  const radii = [shape.radiusNutMm, shape.radiusMiddleMm, shape.radiusEndMm];
  const [smallest, largest] = possibleRadiusMm;
  if (radii.some((radius) => !(radius >= smallest && radius <= largest))) {
    return notArched;
  }
  if (Math.abs(shape.pitch) * plan.lengthMm > plan.lengthMm / 4) {
    return "they climb or fall too steeply along the board; is the unit right?";
  }
  if (noiseMm > mostNoiseMm) {
    return `they scatter by ${noiseMm.toFixed(1)} mm about any board; are the lines in the right order, and all heights in one unit?`;
  }
  if (unwornShare < leastUnwornShare) {
    return "hardly any of them lie on one arched and hollow surface; are they all of one set-up, and the lines in the right order?";
  }
  return null;
}
