/**
 * Wear at each reading: the unworn surface less the compensated reading, mm. Positive: wood is missing; negative: a hump.
 *
 * Standard uncertainty of one such difference (JCGM 100:2008, 5.1): the noise, the surface's own uncertainty there,
 * the gauge's resolution as a rectangle of width δ (δ/√12), and the gauge's limit ±a as a rectangle (a/√3).
 */
import type { Gauge } from "../board/settings.ts";
import type { CompensatedReading, CompensatedReadings } from "../compensation/compensatedReadings.ts";
import { heightMm } from "../surface/idealSurface.ts";
import { heightVariance } from "../surface/surfaceUncertainty.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";

export type WornReading = CompensatedReading & { readonly unwornMm: number; readonly wearMm: number };

export type WearAtReadings = { readonly stage: "compared"; readonly readings: readonly WornReading[] };

export function wearAtReadings(compensated: CompensatedReadings, surface: UnwornSurface): WearAtReadings {
  return {
    stage: "compared",
    readings: compensated.readings.map((reading) => {
      const unwornMm = heightMm(surface.plan, surface.shape, reading.xMm, reading.yMm);
      return { ...reading, unwornMm, wearMm: unwornMm - reading.heightMm };
    }),
  };
}

/** Standard uncertainty of the wear at one reading, mm. */
export function wearUncertaintyMm(surface: UnwornSurface, gauge: Gauge, xMm: number, yMm: number): number {
  return Math.sqrt(
    surface.noiseMm ** 2 +
      heightVariance(surface, xMm, yMm) +
      gauge.resolutionMm ** 2 / 12 +
      gauge.errorLimitMm ** 2 / 3,
  );
}
