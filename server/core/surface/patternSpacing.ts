/**
 * How far apart readings lie in the usual pattern, eleven crosslines by seven lines, made as dense as so many readings make it. mm.
 */
import type { Instrument } from "../board/instrument.ts";

export function patternSpacing(
  instrument: Instrument,
  readings: number,
): { readonly alongMm: number; readonly acrossMm: number } {
  const finer = Math.sqrt(77 / readings);
  const meanWidthMm = (instrument.widthNutMm.value + instrument.widthEndMm.value) / 2;
  return { alongMm: (instrument.boardLengthMm.value / 11) * finer, acrossMm: (meanWidthMm / 7) * finer };
}
