/**
 * The second aim: what a plan makes small once its deepest cut is as small as it can be.
 *
 * in: instrument -> out: places, each with the weight of the cut there (weights sum to 1). Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import { halfWidthMm } from "../board/outline.ts";
import type { Place } from "../units.ts";
import type { WeighedPlace } from "./settledCut.ts";

/** The least volume: the mean cut over the whole board. */
export function leastVolume(instrument: Instrument): readonly WeighedPlace[] {
  const places = areaPlaces(instrument);
  return places.map((place) => ({ ...place, weight: 1 / places.length }));
}

/** A regular pattern of places over the board, each standing for the same share of its area (midpoints of strips). */
export function areaPlaces(instrument: Instrument): readonly Place[] {
  const along = 36;
  const across = 12;
  const places: Place[] = [];
  const nut = instrument.widthNutMm.value;
  const end = instrument.widthEndMm.value;
  for (let i = 0; i < along; i += 1) {
    const xMm = instrument.boardLengthMm.value * fractionOfArea((i + 0.5) / along, nut, end);
    for (let j = 0; j < across; j += 1) {
      places.push({ xMm, yMm: halfWidthMm(instrument, xMm) * ((2 * (j + 0.5)) / across - 1) });
    }
  }
  return places;
}

/** The fraction of the length before which a share of a trapezium's area lies; solves nut·u + (end − nut)·u²/2 = share of it. */
function fractionOfArea(share: number, nut: number, end: number): number {
  const target = (share * (nut + end)) / 2;
  const growth = end - nut;
  return Math.abs(growth) < 1e-9 ? share : (Math.sqrt(nut * nut + 2 * growth * target) - nut) / growth;
}
