/**
 * One scale of wear for several visits, so that their maps can be laid side by side: the same colour, the same depth.
 *
 * Examinations -> the depth at the end of the scale, mm: the deepest wear on any of their maps or the depth that calls for a dressing,
 * whichever is more, up to the next 0.05 mm.
 */
import type { Examination } from "../examination.ts";

const stepMm = 0.05;
const roundingMm = 1e-9;

export function oneScaleMm(examinations: readonly Examination[]): number {
  let endMm = stepMm;
  for (const { maps, deepest, instrument } of examinations) {
    endMm = Math.max(endMm, instrument.dressAtMm.value, deepest?.depthMm ?? 0);
    for (const row of maps?.wearMm ?? []) {
      for (const mm of row) if (mm !== null && mm > endMm) endMm = mm;
    }
  }
  return Number((Math.ceil((endMm - roundingMm) / stepMm) * stepMm).toFixed(2));
}
