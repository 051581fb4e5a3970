/**
 * Could a rut lie under a string where nobody read? The string whose path the readings miss by most.
 *
 * A rut runs along a string, so one reading in it shows it. Wear lies where hands are: in first position (stopped notes 1 to 7) and
 * from there to the octave; a rut may keep to either stretch. In each, the reading nearest to a string's path stands so far off
 * it that a rut twice as wide could lie between the lines unseen. The tip adds nothing to what is seen: a ball sinks into a
 * rut only where it stands over it.
 *
 * in: checked readings, instrument -> out: the widest rut that could hide, mm, and where to look for it; null where none wider than
 * this instrument's ruts could. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import { stopMm } from "../board/stops.ts";
import { stringYMm } from "../board/stringPaths.ts";
import type { Place } from "../units.ts";
import type { Readings } from "./readings.ts";

export type UnreadPath = {
  readonly string: string;
  /** On the string's path, in the middle of the stretch where no reading lies on it. */
  readonly place: Place;
  readonly widestRutMm: number;
};

/** First position, and from there to the octave, as stopped semitones. Common practice, no source. */
const stretches = [
  [1, 7],
  [7, 12],
] as const;

/** A bench sets the tip on a path no better than this, mm: such readings count as on it. From memory. */
const placingMm = 0.5;

export function unreadPath({ readings }: Readings, instrument: Instrument): UnreadPath | null {
  const paths = instrument.strings.flatMap((string, index) =>
    stretches.map(([fromSemitone, toSemitone]): UnreadPath => {
      const fromMm = stopMm(instrument.stringLengthMm.value, fromSemitone);
      const toMm = stopMm(instrument.stringLengthMm.value, toSemitone);
      // Neighbouring strings bound it: no rut is as wide as the strings are apart.
      let nearestMm = spacingMm(instrument, toMm) / 2;
      for (const { xMm, yMm } of readings) {
        if (xMm < fromMm || xMm > toMm) continue;
        nearestMm = Math.min(nearestMm, Math.abs(yMm - stringYMm(instrument, index, xMm)));
      }
      const xMm = Math.round((fromMm + toMm) / 2);
      return { string, place: { xMm, yMm: stringYMm(instrument, index, xMm) }, widestRutMm: 2 * nearestMm };
    }),
  );
  const worst = paths.reduce((widest, path) => (path.widestRutMm > widest.widestRutMm ? path : widest));
  return worst.widestRutMm > Math.max(instrument.rutWidthMm.value, 2 * placingMm) ? worst : null;
}

/** Between neighbouring strings. */
function spacingMm(instrument: Instrument, xMm: number): number {
  return stringYMm(instrument, 1, xMm) - stringYMm(instrument, 0, xMm);
}
