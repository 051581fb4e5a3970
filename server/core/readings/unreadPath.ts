/**
 * Could a rut lie under a string where nobody read? And has every string a line of readings near it at all?
 *
 * A rut runs along a string, so one reading in it shows it. Wear lies where hands are: in first position (stopped notes 1 to 7) and
 * from there to the octave; a rut may keep to either stretch. In each, the reading nearest to a string's path stands so far off
 * it that a rut twice as wide could lie between the lines unseen. The tip adds nothing to what is seen: a ball sinks into a
 * rut only where it stands over it.
 *
 * Two facts, kept apart:
 *   widest       what could hide: the widest rut, and where. Lines evenly across the board hide one nearly always
 *   withoutLine  a string that no line runs near: the nearest is no nearer to it than to its neighbour, less how well a tip is
 *                placed. Then the survey was not made for its strings
 *
 * in: checked readings, instrument -> out: both; null where no rut wider than this instrument's could hide, and where every string
 * has a line. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import { stopMm } from "../board/stops.ts";
import { stringSpacingMm, stringYMm } from "../board/stringPaths.ts";
import type { Place } from "../units.ts";
import type { Readings } from "./readings.ts";

export type UnreadPath = {
  readonly string: string;
  /** On the string's path, in the middle of the stretch where no reading lies on it. */
  readonly place: Place;
  readonly widestRutMm: number;
};

export type UnreadPaths = {
  readonly widest: UnreadPath | null;
  readonly withoutLine: UnreadPath | null;
};

/** First position, and from there to the octave, as stopped semitones. Common practice, no source. */
const stretches = [
  [1, 7],
  [7, 12],
] as const;

/** A bench sets the tip on a path no better than this, mm: such readings count as on it. From memory. */
const placingMm = 0.5;

export function unreadPaths({ readings }: Readings, instrument: Instrument): UnreadPaths {
  const paths = instrument.strings.flatMap((string, index) =>
    stretches.map(([fromSemitone, toSemitone]) => {
      const fromMm = stopMm(instrument.stringLengthMm.value, fromSemitone);
      const toMm = stopMm(instrument.stringLengthMm.value, toSemitone);
      // Neighbouring strings bound it: no rut is as wide as the strings are apart.
      let nearestMm = stringSpacingMm(instrument, toMm) / 2;
      let hasLine = false;
      for (const { xMm, yMm } of readings) {
        if (xMm < fromMm || xMm > toMm) continue;
        const offMm = Math.abs(yMm - stringYMm(instrument, index, xMm));
        nearestMm = Math.min(nearestMm, offMm);
        hasLine ||= offMm < stringSpacingMm(instrument, xMm) / 2 - placingMm;
      }
      const xMm = Math.round((fromMm + toMm) / 2);
      const place = { xMm, yMm: stringYMm(instrument, index, xMm) };
      return { path: { string, place, widestRutMm: 2 * nearestMm }, hasLine };
    }),
  );
  const leastMm = Math.max(instrument.rutWidthMm.value, 2 * placingMm);
  const hiding = paths.filter(({ path }) => path.widestRutMm > leastMm);
  return {
    widest: widestOf(hiding.map(({ path }) => path)),
    withoutLine: widestOf(hiding.filter(({ hasLine }) => !hasLine).map(({ path }) => path)),
  };
}

function widestOf(paths: readonly UnreadPath[]): UnreadPath | null {
  return paths.reduce<UnreadPath | null>(
    (widest, path) => (widest === null || path.widestRutMm > widest.widestRutMm ? path : widest),
    null,
  );
}
