/**
 * Places read again to see the gauge's drift: for each, every reading of it in its set-up, in the order they were taken.
 *
 * A `check` belongs to the place within 0.05 mm along and across of it: the finest step of a typed x or y, or of a y that a
 * line's name stands for. A place read only once says nothing of drift. A reading searched for by hand (`lowest`) is none of
 * a grid place's repeats.
 *
 * in: readings, mm -> out: indices into them.
 */
import type { Reading } from "../readings/readings.ts";

export type CheckedPlace = { readonly setup: number; readonly at: readonly number[] };

const samePlaceMm = 0.05;
/** Rounding of x and y (0.1 and 0.15, say, differ by more than 0.05 in the last digit of a number). */
const roundingMm = 1e-9;

export function checkedPlaces(readings: readonly Reading[]): readonly CheckedPlace[] {
  const places = placesByX();
  for (const reading of readings) {
    if (reading.mark === "check" && places.holding(reading) === null) places.add(reading);
  }
  if (places.all.length === 0) return [];
  readings.forEach((reading, i) => {
    if (reading.mark !== "lowest") places.holding(reading)?.at.push(i);
  });
  return places.all.filter((place) => place.at.length > 1);
}

type Gathering = CheckedPlace & { readonly at: number[]; readonly xMm: number; readonly yMm: number };

/** Places found by x, so that a scan with a few checks is gone through in one pass. */
function placesByX() {
  const strip = (xMm: number) => Math.floor(xMm / samePlaceMm);
  const strips = new Map<number, Gathering[]>();
  const all: Gathering[] = [];
  return {
    all,
    add({ setup, xMm, yMm }: Reading): void {
      const place: Gathering = { setup, xMm, yMm, at: [] };
      all.push(place);
      strips.set(strip(xMm), [...(strips.get(strip(xMm)) ?? []), place]);
    },
    holding({ setup, xMm, yMm }: Reading): Gathering | null {
      for (const beside of [0, -1, 1]) {
        for (const place of strips.get(strip(xMm) + beside) ?? []) {
          const offMm = Math.max(Math.abs(place.xMm - xMm), Math.abs(place.yMm - yMm));
          if (place.setup === setup && offMm <= samePlaceMm + roundingMm) return place;
        }
      }
      return null;
    },
  };
}
