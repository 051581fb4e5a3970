/**
 * Places where one more reading could be taken, to be tried for what it would tell.
 *
 * Under every string, midway between, and along both edges; at eleven crosslines, evenly from where the nut lets a tip down to
 * where the edge at the bridge end is no longer round. Worn places are left out: they say little of the unworn surface. x in whole mm,
 * so that a bench can go there.
 */
import type { Instrument } from "../board/instrument.ts";
import { linePath, stringAndMidwayNames } from "../board/stringPaths.ts";
import type { Place } from "../units.ts";
import type { FoundPlace } from "../wear/wornPlaces.ts";

export type PlaceOnLine = Place & { readonly line: string };

const crosslines = 11;
/** Nearer to either end than this, mm, is no place to read (common practice, no source). */
const marginMm = 4;

export function placesToRead(instrument: Instrument, wornPlaces: readonly FoundPlace[]): readonly PlaceOnLine[] {
  const spanMm = instrument.boardLengthMm.value - 2 * marginMm;
  const names = ["bass edge", ...stringAndMidwayNames(instrument), "treble edge"];
  return names.flatMap((line) => {
    const path = linePath(instrument, line);
    if (path === null) return [];
    return Array.from({ length: crosslines }, (_, i): PlaceOnLine => {
      const xMm = Math.round(marginMm + (spanMm * i) / (crosslines - 1));
      return { line, xMm, yMm: path.yAtMm(xMm) };
    }).filter((place) => !wornPlaces.some((worn) => holds(worn, place)));
  });
}

function holds({ xMm, yMm }: FoundPlace, place: Place): boolean {
  return place.xMm >= xMm[0] && place.xMm <= xMm[1] && place.yMm >= yMm[0] && place.yMm <= yMm[1];
}
