/**
 * What the plane left on a board, and what its readings can't tell, as lines of text. Examination -> lines, rounded by words.ts; none where
 * there is nothing to say.
 *
 * Long waves and humps of the unworn surface are workmanship: none of it is counted as wear. A board that is humped from end to end is told
 * so with its hollows, not here.
 */
import type { Examination } from "../core/examination.ts";
import { depth, distance, hundredths, quantity } from "./words.ts";

export function workmanshipLines({ surface: { formMm, humps, hollows } }: Examination): string[] {
  const isHumpedAnyhow = (string: string): boolean =>
    hollows.some((hollow) => hollow.string === string && hollow.state === "humped");
  const own = humps.filter(({ string }) => !isHumpedAnyhow(string));
  return [
    ...(formMm === null || Number(hundredths(formMm)) === 0 ? [] : [`long waves of ± ${depth(formMm)}: no wear`]),
    ...own.map(
      ({ string, xMm, heightMm }) =>
        `a hump behind a dip, ${distance(xMm)} from the nut, where the ${string} string may buzz: ${quantity(heightMm)} high`,
    ),
  ];
}

/** A quick look tells it among its reasons. */
export function assumedLines({ surface, verdict }: Examination): readonly string[] {
  return verdict.quickLook === null ? surface.assumed : [];
}
