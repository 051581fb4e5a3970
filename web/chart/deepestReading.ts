/**
 * The deepest reading of a worn place (the highest of a hump): where its row in the table leads.
 *
 * Worn place -> x, y in mm; the middle of the place where no reading lies in it.
 */
import type { Examination, WornPlace } from "../../server/core/examination.ts";
import type { PlaceMm } from "./board.ts";

export function deepestReadingIn(place: WornPlace, examination: Examination): PlaceMm {
  const [[fromX, toX], [fromY, toY]] = [place.xMm, place.yMm];
  let found: PlaceMm = [(fromX + toX) / 2, (fromY + toY) / 2];
  let most = 0;
  for (const point of examination.points) {
    const depthMm = place.kind === "hump" ? -point.wearMm : point.wearMm;
    const lies = point.xMm >= fromX && point.xMm <= toX && point.yMm >= fromY && point.yMm <= toY;
    if (!lies || depthMm <= most) continue;
    most = depthMm;
    found = [point.xMm, point.yMm];
  }
  return found;
}
