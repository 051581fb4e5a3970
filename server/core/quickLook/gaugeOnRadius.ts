/**
 * What the gauge's limit of error leaves uncertain in a radius; expanded, mm.
 *
 * The limit a counts once, as a rectangle, in the rise of the arc over the width that was read: s = w²/8R, so dR = 8R²/w² ds.
 */
import type { Gauge } from "../board/settings.ts";
import { coverageFactor } from "../units.ts";

export function gaugeUOfRadiusMm(radiusMm: number, readOverMm: number, { errorLimitMm }: Gauge): number {
  return ((coverageFactor * 8 * radiusMm ** 2) / readOverMm ** 2) * (errorLimitMm / Math.sqrt(3));
}
