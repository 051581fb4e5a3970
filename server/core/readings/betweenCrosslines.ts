/**
 * What could lie between two crosslines unseen: the longest finger pit in first position that no crossline passes through.
 *
 * First position reaches from the nut to the fifth above the open string (seven semitones). A gap counts where a pit in the middle of it
 * would lie there.
 *
 * in: crosslines in mm from the nut, rising; instrument -> out: mm along the board.
 */
import type { Instrument } from "../board/instrument.ts";
import { stopMm } from "../board/stops.ts";

const lastOfFirstPosition = 7;

export function longestHiddenPitMm(crosslinesMm: readonly number[], instrument: Instrument): number {
  const endMm = stopMm(instrument.stringLengthMm.value, lastOfFirstPosition);
  const gaps = crosslinesMm.map((xMm, i) => {
    const fromMm = i === 0 ? 0 : crosslinesMm[i - 1];
    return (fromMm + xMm) / 2 < endMm ? xMm - fromMm : 0;
  });
  return Math.max(...gaps);
}
