/**
 * The thickness where there is least to spare, as a reason: after the least cut where wood has to go, else as it is today.
 *
 * Within the uncertainty of its limit it is told how likely it is to be under it. Lengths in mm.
 */
import type { Reason } from "../examination.ts";
import { certaintyOf, chanceInWords, isClose, probabilityUnder } from "./conformity.ts";
import type { Findings } from "./findings.ts";
import { calliperUMm, leastToSpare } from "./remaining.ts";

export function thicknessReasons(
  { thickness, hasPlan, instrument, gauge }: Findings,
  isNeeded: boolean,
): readonly Reason[] {
  if (thickness === null) {
    const says = "The thickness at the edges was not measured: how much may go is not known.";
    return [
      { code: "thickness-missing", says, valueMm: null, u: null, limitMm: null, origin: null, probability: null },
    ];
  }
  const isAfter = isNeeded && hasPlan;
  const place = leastToSpare(thickness.places, isAfter ? "after" : "before");
  const where = place.side === "centre" ? "over the underside hollow" : `at the ${place.side} edge`;
  const limit = place.side === "centre" ? instrument.centreLimitMm : instrument.edgeLimitMm;
  const measured = {
    value: (isAfter ? place.afterMm : null) ?? place.beforeMm,
    u: isAfter ? place.u : calliperUMm(gauge),
  };
  const probability = probabilityUnder(measured, limit.value);
  const isTooClose = isClose(certaintyOf(limit.value - measured.value, measured.u));
  const says = `Thickness ${where}, ${Math.round(place.xMm)} mm from the nut, ${isAfter ? "after the least cut" : "today"}`;
  return [
    {
      code: isAfter ? "thickness" : "thickness-before",
      says: isTooClose ? `${says}: ${chanceInWords(probability)} that it is under its limit.` : `${says}.`,
      valueMm: measured.value,
      u: measured.u,
      limitMm: limit.value,
      origin: limit.origin,
      probability,
    },
  ];
}
