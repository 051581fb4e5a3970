/**
 * The rail's own error, taken off every reading: z − e(x), e piecewise linear between the places of its profile, constant beyond.
 *
 * A rail that bows up by 0.1 mm in its middle makes every board 0.1 mm less hollow. A pass across the board stands at one x, so
 * that only a constant is taken off it, which its set-up's own height takes up.
 *
 * What is uncertain in e goes into a hollow, the height halfway against those of both ends, as into e₂ − (e₁ + e₃)/2: √1.5 of
 * the uncertainty of one (JCGM 100:2008, 5.1), here of the profile's root mean square. Lengths in mm.
 */
import { bisector } from "d3";
import type { RailPoint, RailProfile } from "../readings/railProfile.ts";
import type { Readings } from "../readings/readings.ts";

export function withoutRailError(readings: Readings, profile: RailProfile): Readings {
  return {
    ...readings,
    readings: readings.readings.map((reading) => ({
      ...reading,
      gaugeMm: reading.gaugeMm - railErrorMm(profile, reading.xMm),
    })),
  };
}

const beforeWhich = bisector((point: RailPoint) => point.xMm).left;

export function railErrorMm(profile: RailProfile, xMm: number): number {
  const next = beforeWhich(profile, xMm);
  const before = profile[next - 1];
  const after = profile[next];
  if (before === undefined) return after.errorMm;
  if (after === undefined) return before.errorMm;
  const share = (xMm - before.xMm) / (after.xMm - before.xMm);
  return before.errorMm + share * (after.errorMm - before.errorMm);
}

/** Standard uncertainty that the profile brings into a hollow, mm. */
export function railUMm(profile: RailProfile): number {
  const meanSquare = profile.reduce((sum, { uMm }) => sum + uMm ** 2, 0) / profile.length;
  return Math.sqrt(1.5 * meanSquare);
}
