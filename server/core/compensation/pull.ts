/**
 * The strings' pull: at pitch they bend the neck, and the board is more hollow than with slack strings.
 *
 * The pull p is the hollow at pitch less the hollow slack, measured with a straightedge under the lowest and the highest string;
 * it runs linearly across from one path to the other. A neck bent by a load at its end bends as a shallow parabola, so that
 * readings taken slack are brought to pitch by
 *
 *   z at pitch = z slack − p(x, y) · 4u(1 − u),   u = x / L
 *
 * Nothing is done with strings at pitch, nor where the pull is not known; then hollows at pitch are less certain, by (standard)
 *
 *   slack, pull measured       0.02 mm: two gaps by feeler gauges in steps of 0.05 mm (a rectangle each, 0.05/√12, and √2 of
 *                              that; common practice, no source)
 *   slack, pull not measured   a/√3: anything from nothing to the usual most a, heights left as they are (E p² = a²/3)
 *   nobody said                a/√6: as likely at pitch as slack
 *
 * with a = 0.2 mm for a violin, 0.25 viola, 0.5 cello, 0.8 bass (from memory, no source). Lengths in mm.
 */
import type { Instrument, Kind } from "../board/instrument.ts";
import type { Gauge } from "../board/settings.ts";
import { stringYMm } from "../board/stringPaths.ts";
import type { Readings } from "../readings/readings.ts";

const usualMostPullMm: Readonly<Record<Kind, number>> = { violin: 0.2, viola: 0.25, cello: 0.5, bass: 0.8 };

const feelerStepMm = 0.05;

export function broughtToPitch(readings: Readings, instrument: Instrument, gauge: Gauge): Readings {
  const { pull, tension } = gauge;
  if (tension !== "off" || pull === null) return readings;
  const lengthMm = instrument.boardLengthMm.value;
  const last = instrument.strings.length - 1;
  return {
    ...readings,
    readings: readings.readings.map((reading) => {
      const { xMm, yMm } = reading;
      const lowestYMm = stringYMm(instrument, 0, xMm);
      const across = (yMm - lowestYMm) / (stringYMm(instrument, last, xMm) - lowestYMm);
      const pullMm = pull.lowestMm + (pull.highestMm - pull.lowestMm) * across;
      const along = xMm / lengthMm;
      return { ...reading, gaugeMm: reading.gaugeMm - pullMm * 4 * along * (1 - along) };
    }),
  };
}

/** Standard uncertainty of a hollow at pitch for want of knowing the pull, mm. */
export function pullUncertaintyMm({ tension, pull }: Gauge, { kind }: Instrument): number {
  if (tension === "on") return 0;
  if (tension === "unknown") return usualMostPullMm[kind] / Math.sqrt(6);
  return pull === null ? usualMostPullMm[kind] / Math.sqrt(3) : feelerStepMm / Math.sqrt(6);
}
