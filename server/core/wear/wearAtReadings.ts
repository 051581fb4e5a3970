/**
 * Wear at each reading: the unworn surface less the compensated reading, mm. Positive: wood is missing; negative: a hump.
 *
 * Standard uncertainty of one such difference (JCGM 100:2008, 5.1): the noise, the surface's own uncertainty there,
 * the gauge's resolution as a rectangle of width δ (δ/√12), and the gauge's limit ±a as a rectangle (a/√3).
 */
import type { Gauge } from "../board/settings.ts";
import type { CompensatedReading, CompensatedReadings } from "../compensation/compensatedReadings.ts";
import { comparedVariance } from "../surface/surfaceUncertainty.ts";
import { type UnwornSurface, unwornHeightMm } from "../surface/unwornSurface.ts";

export type WornReading = CompensatedReading & { readonly unwornMm: number; readonly wearMm: number };

/**
 * A place read once or more, in one: its mean, and the readings that it is the mean of. Where the lowest spot near a place was searched
 * for, that is the place, and what was read in its turn does not make it shallower.
 */
export type PlaceRead = { readonly mean: WornReading; readonly repeats: readonly WornReading[] };

export type WearAtReadings = {
  readonly stage: "compared";
  /** In the order of the file. */
  readonly readings: readonly WornReading[];
  readonly places: readonly PlaceRead[];
};

export function wearAtReadings(compensated: CompensatedReadings, surface: UnwornSurface): WearAtReadings {
  return comparedAt(
    compensated.readings.map((reading) => {
      const unwornMm = unwornHeightMm(surface, reading.xMm, reading.yMm);
      return { ...reading, unwornMm, wearMm: unwornMm - reading.heightMm };
    }),
  );
}

/** Readings with their wear, and the places they were taken at. */
export function comparedAt(readings: readonly WornReading[]): WearAtReadings {
  return { stage: "compared", readings, places: repeatsByPlace(readings).map(lowestOrAll).map(placeRead) };
}

/** Readings by the place that was read: repeats together, in the order of the file. */
function repeatsByPlace(readings: readonly WornReading[]): readonly (readonly WornReading[])[] {
  const places = new Map<string, WornReading[]>();
  for (const reading of readings) {
    const key = `${reading.givenXMm} ${reading.givenYMm}`;
    const place = places.get(key);
    if (place) place.push(reading);
    else places.set(key, [reading]);
  }
  return [...places.values()];
}

function lowestOrAll(repeats: readonly WornReading[]): readonly WornReading[] {
  const lowest = repeats.filter(({ mark }) => mark === "lowest");
  return lowest.length === 0 ? repeats : lowest;
}

/** A place read several times, as one reading: the mean of where the tip touched, of height and of wear. */
function placeRead(repeats: readonly WornReading[]): PlaceRead {
  if (repeats.length === 1) return { mean: repeats[0], repeats };
  const mean = (of: (reading: WornReading) => number): number =>
    repeats.reduce((sum, reading) => sum + of(reading), 0) / repeats.length;
  return {
    mean: {
      ...repeats[0],
      xMm: mean((reading) => reading.xMm),
      yMm: mean((reading) => reading.yMm),
      heightMm: mean((reading) => reading.heightMm),
      unwornMm: mean((reading) => reading.unwornMm),
      wearMm: mean((reading) => reading.wearMm),
    },
    repeats,
  };
}

/** Standard uncertainty of the wear at a place read so many times, mm. */
export function wearUncertaintyMm(
  surface: UnwornSurface,
  gauge: Gauge,
  place: Pick<CompensatedReading, "xMm" | "yMm" | "setup">,
  repeats = 1,
): number {
  return Math.sqrt(
    surface.noiseMm ** 2 / repeats +
      comparedVariance(surface, place) +
      gauge.resolutionMm ** 2 / 12 +
      gauge.errorLimitMm ** 2 / 3,
  );
}
