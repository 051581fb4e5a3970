/**
 * Is a place on the board? Half a millimetre beyond the edge is let pass: places are set with a rule and a pencil.
 */
import type { Instrument } from "../board/instrument.ts";
import { isOnBoard } from "../board/outline.ts";

const placeSlackMm = 0.5;

export function isAlong(instrument: Instrument, xMm: number): boolean {
  return xMm >= -placeSlackMm && xMm <= instrument.boardLengthMm.value + placeSlackMm;
}

/** For a place that is on the board along. */
export function isAcross(instrument: Instrument, xMm: number, yMm: number): boolean {
  return isOnBoard(instrument, { xMm, yMm }, placeSlackMm);
}

/** E.g. "the board of this cello is 580 mm long". */
export function lengthInWords(instrument: Instrument): string {
  return `the board of this ${instrument.kind} (${instrument.size}) is ${inMm(instrument.boardLengthMm.value)} long`;
}

/** A length for a message: no more digits than a bench can use. */
export function inMm(lengthMm: number): string {
  return `${Number(lengthMm.toFixed(3))} mm`;
}
