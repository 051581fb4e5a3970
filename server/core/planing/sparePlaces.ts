/**
 * Places of known thickness as the plan sees them: how much may go there before the limit is reached, mm.
 *
 * An edge is cut from the unworn surface carried there; over the underside hollow the present surface counts.
 */
import type { Instrument } from "../board/instrument.ts";
import type { ThicknessReading } from "../readings/readings.ts";
import { type UnwornSurface, unwornHeightMm } from "../surface/unwornSurface.ts";
import { type WearMap, wearOfMapMm } from "../wear/wearMap.ts";
import type { SparePlace } from "./planingPlan.ts";

export function sparePlaces(
  thickness: readonly ThicknessReading[],
  surface: UnwornSurface,
  map: WearMap,
  instrument: Instrument,
): readonly SparePlace[] {
  return thickness.map(({ xMm, yMm, side, thicknessMm }) => {
    const unwornMm = unwornHeightMm(surface, xMm, yMm);
    const isCentre = side === "centre";
    return {
      xMm,
      yMm,
      presentMm: isCentre ? unwornMm - wearOfMapMm(map, xMm, yMm) : unwornMm,
      isEdge: !isCentre,
      spareMm: thicknessMm - (isCentre ? instrument.centreLimitMm.value : instrument.edgeLimitMm.value),
    };
  });
}
