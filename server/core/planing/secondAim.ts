/**
 * The second aim: what a plan makes small once its deepest cut is as small as it can be.
 *
 * in: instrument -> out: places, each with the weight of the cut there. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import { halfWidthMm } from "../board/outline.ts";
import type { Job } from "../board/settings.ts";
import type { Place } from "../units.ts";
import type { SecondAim, WeighedPlace } from "./settledCut.ts";

/** `spare` wood: the mean cut over the whole board. `spare` edges: the mean cut along both edges. */
export function secondAim(instrument: Instrument, spare: Job["spare"]): SecondAim {
  const wood = areaPlaces(instrument);
  if (spare === "wood") return { places: evenlyWeighed(wood, 1), givesUpMm: hairMm };
  const edges = evenlyWeighed(alongEdges(instrument), 1);
  return { places: [...edges, ...evenlyWeighed(wood, leftOverWeight)], givesUpMm: strokeMm };
}

/** Without any room at all the programme would stand still at once, mm. */
const hairMm = 1e-6;
/** The least deepest cut leaves a target hardly any room; for the sake of the edges it may be deeper by a stroke of the scraper, mm. */
const strokeMm = 0.02;
/** Among targets that spare the edges alike, the one that takes less wood. */
const leftOverWeight = 1e-3;

function evenlyWeighed(places: readonly Place[], total: number): readonly WeighedPlace[] {
  return places.map((place) => ({ ...place, weight: total / places.length }));
}

function alongEdges(instrument: Instrument): readonly Place[] {
  const stations = 24;
  return Array.from({ length: stations + 1 }, (_, i) => (instrument.boardLengthMm.value * i) / stations).flatMap(
    (xMm) => [-1, 1].map((side) => ({ xMm, yMm: side * halfWidthMm(instrument, xMm) })),
  );
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
