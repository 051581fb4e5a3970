/**
 * Repeatability: standard deviation of repeated readings of the same place, pooled over the places, mm.
 *
 * s² = Σ (z − mean of its place)² / Σ (n − 1), over places read more than once in one set-up of the rail (JCGM 100:2008,
 * 4.2 and H.3.6, pooled). A place searched for by hand is no repeat of the one beside it. Null without repeats.
 * Example: 0.10, 0.12 at one place and 0.30, 0.30 at another -> √(0.0002 / 2) = 0.010.
 */
import type { Readings } from "./readings.ts";

export function repeatSdMm(readings: Readings): number | null {
  const places = new Map<string, { sum: number; sumOfSquares: number; count: number }>();
  const first = readings.readings[0]?.gaugeMm ?? 0;
  for (const { xMm, yMm, gaugeMm, setup, mark } of readings.readings) {
    if (mark === "lowest") continue;
    const key = `${setup} ${xMm} ${yMm}`;
    const place = places.get(key) ?? { sum: 0, sumOfSquares: 0, count: 0 };
    const z = gaugeMm - first;
    places.set(key, { sum: place.sum + z, sumOfSquares: place.sumOfSquares + z * z, count: place.count + 1 });
  }
  let squares = 0;
  let freedom = 0;
  for (const { sum, sumOfSquares, count } of places.values()) {
    squares += Math.max(0, sumOfSquares - (sum * sum) / count);
    freedom += count - 1;
  }
  return freedom === 0 ? null : Math.sqrt(squares / freedom);
}
