/**
 * The board's outline: a straight taper from the nut to the bridge end, the same on both sides of the centreline.
 *
 * x, y -> half-width, on the board or not. mm. The taper goes on straight beyond both ends.
 */
import type { Place } from "../units.ts";
import type { Instrument } from "./instrument.ts";

/** Half the board's width at a crossline. Violin, 24 at the nut and 42 at the end: 12 at x = 0, 21 at x = 270. */
export function halfWidthMm(instrument: Instrument, xMm: number): number {
  const nutMm = instrument.widthNutMm.value / 2;
  const endMm = instrument.widthEndMm.value / 2;
  return nutMm + (endMm - nutMm) * (xMm / instrument.boardLengthMm.value);
}

/** Whether a place lies on the board, or no farther outside any edge than the slack. */
export function isOnBoard(instrument: Instrument, place: Place, slackMm = 0): boolean {
  const alongBoard = place.xMm >= -slackMm && place.xMm <= instrument.boardLengthMm.value + slackMm;
  return alongBoard && Math.abs(place.yMm) <= halfWidthMm(instrument, place.xMm) + slackMm;
}
