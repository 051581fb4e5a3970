/**
 * The readings as the examination tells them: place, height, unworn height, wear, and the cut there. Lengths in mm.
 */
import type { Deepest, Point } from "../examination.ts";
import { heightMm, type SurfacePlan, type SurfaceShape } from "../surface/idealSurface.ts";
import type { WornReading } from "../wear/wearAtReadings.ts";
import type { FoundPlace } from "../wear/wornPlaces.ts";

export function pointsOf(
  readings: readonly WornReading[],
  target: SurfaceShape | null,
  plan: SurfacePlan,
): readonly Point[] {
  return readings.map((reading) => ({
    row: reading.row,
    givenXMm: reading.givenXMm,
    givenYMm: reading.givenYMm,
    xMm: reading.xMm,
    yMm: reading.yMm,
    heightMm: reading.heightMm,
    unwornMm: reading.unwornMm,
    wearMm: reading.wearMm,
    cutMm: target && reading.heightMm - heightMm(plan, target, reading.xMm, reading.yMm),
  }));
}

/** The deepest worn place, or null where nothing is worn. At least so deep where any rut may not have been bottomed. */
export function deepestOf(places: readonly FoundPlace[]): Deepest | null {
  const deepest = places.find((place) => place.kind !== "hump");
  if (!deepest) return null;
  const { depthMm, u, string, note, position, kind, deepestReading } = deepest;
  const atLeast = places.some((place) => place.atLeast);
  return { depthMm, u, xMm: deepestReading.xMm, yMm: deepestReading.yMm, string, note, position, kind, atLeast };
}
