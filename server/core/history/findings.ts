/**
 * What history needs of an examination: a few figures that are kept beside every visit.
 *
 * Examination -> Findings. A quick look names no worn place and no cut: those are null. Lengths in mm; every `u` is expanded
 * (coverage factor 2).
 *
 * Wear that would just not have shown is the depth that chance alone makes of so many readings less often than once in a hundred
 * surveys, or what was not worth naming (a tenth of the depth that calls for a dressing), as in `wear/wornPlaces.ts`.
 */
import type { Examination } from "../examination.ts";
import { normalQuantile } from "../maths/quantiles.ts";
import type { Findings } from "./history.ts";

export function findingsOf(examination: Examination): Findings {
  const { readings, deepest, planing, thickness, surface, instrument, verdict } = examination;
  return {
    readings: readings.count,
    decision: verdict.decision,
    quickLook: verdict.quickLook,
    deepest: deepest && {
      depthMm: { value: deepest.depthMm, u: deepest.u },
      atLeast: deepest.atLeast,
      xMm: deepest.xMm,
      yMm: deepest.yMm,
      string: deepest.string,
      note: deepest.note,
      position: deepest.position,
    },
    unseenMm: unseenMm(examination),
    dressAtMm: instrument.dressAtMm.value,
    planeOffMm: planing && { value: planing.planeOffMm.value, u: planing.planeOffMm.u },
    hollows:
      surface.hollows.length === 0
        ? null
        : { within: surface.hollows.filter(({ state }) => state === "within").length, of: surface.hollows.length },
    edge: thickness && { ...thickness.before },
    edgeAfterMm: planing && thickness && { ...thickness.edgeAfterMm },
    edgeLimitMm: instrument.edgeLimitMm.value,
    dressingSpendMm: instrument.dressingSpendMm.value,
  };
}

/** Only a full survey has a map, and looks for wear. */
function unseenMm({ maps, readings, surface, instrument }: Examination): number | null {
  if (maps === null || surface.noiseMm === null) return null;
  const looked = readings.condensedTo ?? readings.count;
  return Math.max(normalQuantile(1 - 0.01 / looked) * surface.noiseMm, instrument.dressAtMm.value / 10);
}
