/**
 * The verdict on one line, for a list of boards: what to do, the deepest place, the thickness left against its limit.
 *
 * "dress; deepest 0.21 ± 0.02 mm on the C string at E, first position; 4.62 ± 0.06 mm left at the edge, limit 3.50 mm"
 */
import type { Examination } from "../core/examination.ts";
import { decisionInWords, depth, placeInWords, quantity } from "./words.ts";

export function verdictLine({ verdict, deepest, planing, thickness }: Examination): string {
  return [
    verdict.quickLook === null ? decisionInWords[verdict.decision] : `quick look: ${verdict.quickLook}`,
    ...(verdict.quickLook === null ? [deepest === null ? "no worn place" : `deepest ${deepestInWords(deepest)}`] : []),
    ...(thickness === null
      ? ["thickness not measured"]
      : [
          `${quantity(thickness.edgeAfterMm)} ${planing === null ? "at the edge now" : "left at the edge"}, limit ${depth(thickness.limitMm)}`,
        ]),
  ].join("; ");
}

export function deepestInWords(deepest: NonNullable<Examination["deepest"]>): string {
  const size = quantity({ value: deepest.depthMm, u: deepest.u });
  return `${deepest.atLeast ? "at least " : ""}${size} ${placeInWords(deepest)}`;
}
