/**
 * The narrowest rut that shows under the gauge's ball: into a narrower one it can't sink by as much as would be told from noise.
 *
 * Into a rut of width b a ball of radius r sinks r − √(r² − b²/4) at most (compensation/tip.ts). On a slope it touches aside of its
 * centre, by e, and so nearer to one rim: it comes down on that rim as in a rut of b − 2e. To sink by t it needs
 *
 *   b = 2(e + √(2rt − t²)),   t ≤ r
 *
 * What sinks by just the least wear that is told is missed half the time, for noise; with k standard deviations more it is seen (a
 * detection limit beside a decision limit: Currie, Analytical Chemistry 40 (1968), from memory). A rut has rounded rims, so that it
 * shows less still. Told for the string where it is widest: on the outer strings the slope is
 * steepest.
 *
 * in: unworn surface, instrument, gauge, the least wear that is told -> out: string and width; null for a point. Lengths in mm.
 * Example: r 1.5, t 0.04, level -> 0.69; where it touches 0.31 aside -> 1.31.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Gauge } from "../board/settings.ts";
import { stopMm } from "../board/stops.ts";
import { stringYMm } from "../board/stringPaths.ts";
import { touchOf } from "../compensation/tip.ts";
import { slopes } from "../surface/idealSurface.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";
import { coverageFactor } from "../units.ts";

export type NarrowestRut = { readonly string: string; readonly widthMm: number };

/** Ruts lie from first position to the octave (common practice, no source). */
const semitones = [1, 4, 7, 12] as const;

export function narrowestRut(
  { plan, shape, noiseMm }: UnwornSurface,
  instrument: Instrument,
  { tipRadiusMm }: Gauge,
  leastWearMm: number,
): NarrowestRut | null {
  if (tipRadiusMm === 0) return null;
  const seenMm = leastWearMm + coverageFactor * noiseMm;
  const perString = instrument.strings.map((string, index): NarrowestRut => {
    const asideMm = semitones.map((semitone) => {
      const xMm = stopMm(instrument.stringLengthMm.value, semitone);
      const yMm = stringYMm(instrument, index, xMm);
      return Math.abs(touchOf(xMm, yMm, tipRadiusMm, (x, y) => slopes(plan, shape, x, y)).yMm - yMm);
    });
    // Somewhere along its string a rut shows best: there the slope is least.
    return { string, widthMm: widthMm(tipRadiusMm, seenMm, Math.min(...asideMm)) };
  });
  return perString.reduce((widest, one) => (one.widthMm > widest.widthMm ? one : widest));
}

function widthMm(tipRadiusMm: number, sinksMm: number, asideMm: number): number {
  const deepMm = Math.min(sinksMm, tipRadiusMm);
  return 2 * (asideMm + Math.sqrt(2 * tipRadiusMm * deepMm - deepMm ** 2));
}
