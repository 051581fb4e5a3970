/**
 * Heights that can only be slips of the pen: a decimal point lost, a digit too many.
 *
 * Along one line, a reading that stands more than 10 mm above both its neighbours, or below both, is no wood: the
 * deepest hollow of a bass is about 3 mm (common practice, no source). Slopes are no spikes, whatever the rail's
 * pitch. Everything less certain is left to the fit.
 */
import type { Reading } from "./readings.ts";

const certainlyWrongMm = 10;

/** Places in the list of readings: the slip and its neighbours along the line. */
export type Slip = { readonly at: number; readonly before: number; readonly after: number };

export function typingSlips(readings: readonly Reading[]): readonly Slip[] {
  const slips: Slip[] = [];
  for (const line of linesOf(readings)) {
    const along = line.toSorted((a, b) => readings[a]!.xMm - readings[b]!.xMm);
    for (let i = 1; i + 1 < along.length; i++) {
      const slip = { at: along[i]!, before: along[i - 1]!, after: along[i + 1]! };
      if (isSpike(readings, slip)) slips.push(slip);
    }
  }
  return slips;
}

function isSpike(readings: readonly Reading[], { at, before, after }: Slip): boolean {
  const [heightMm, oneMm, otherMm] = [readings[at]!.gaugeMm, readings[before]!.gaugeMm, readings[after]!.gaugeMm];
  const aboveMm = heightMm - Math.max(oneMm, otherMm);
  const belowMm = Math.min(oneMm, otherMm) - heightMm;
  return Math.max(aboveMm, belowMm) > certainlyWrongMm;
}

function linesOf(readings: readonly Reading[]): Iterable<readonly number[]> {
  const byLine = new Map<string | number, number[]>();
  readings.forEach((reading, i) => {
    const key = reading.line ?? reading.yMm;
    const line = byLine.get(key);
    if (line === undefined) byLine.set(key, [i]);
    else line.push(i);
  });
  return byLine.values();
}
