/**
 * Heights that can only be slips of the pen: a decimal point lost, a digit too many.
 *
 * Along one line, a reading that stands more than 10 mm above both its neighbours, or below both, is no wood: the
 * deepest hollow of a bass is about 3 mm (common practice, no source). Slopes are no spikes, whatever the rail's
 * pitch. At a line's end the one step must besides be five times what all the others span. Everything less certain is
 * left to the fit.
 */
import type { Reading } from "./readings.ts";

export const certainlyWrongMm = 10;

/** Places in the list of readings: the slip and two neighbours along the line. */
export type Slip = { readonly at: number; readonly neighbours: readonly [number, number] };

export function typingSlips(readings: readonly Reading[]): readonly Slip[] {
  return linesOf(readings).flatMap((line) => {
    const along = line.toSorted((a, b) => readings[a]!.xMm - readings[b]!.xMm);
    const heightsMm = along.map((i) => readings[i]!.gaugeMm);
    const slip = (i: number, one: number, other: number): Slip => ({
      at: along[i]!,
      neighbours: [along[one]!, along[other]!],
    });
    const last = along.length - 1;
    return [
      ...(endsInStep(heightsMm) ? [slip(0, 1, 2)] : []),
      ...innerSpikes(heightsMm).map((i) => slip(i, i - 1, i + 1)),
      ...(endsInStep(heightsMm.toReversed()) ? [slip(last, last - 1, last - 2)] : []),
    ];
  });
}

function innerSpikes(heightsMm: readonly number[]): readonly number[] {
  const spikes: number[] = [];
  for (let i = 1; i + 1 < heightsMm.length; i++) {
    const [before, at, after] = [heightsMm[i - 1]!, heightsMm[i]!, heightsMm[i + 1]!];
    const offMm = Math.max(at - Math.max(before, after), Math.min(before, after) - at);
    if (offMm > certainlyWrongMm) spikes.push(i);
  }
  return spikes;
}

/** Whether the first height steps away from all the others. */
function endsInStep(heightsMm: readonly number[]): boolean {
  const [end, next, ...rest] = heightsMm;
  if (end === undefined || next === undefined || rest.length < 2) return false;
  const others = heightsMm.slice(1);
  const spanMm =
    others.reduce((most, z) => Math.max(most, z), next) - others.reduce((least, z) => Math.min(least, z), next);
  const stepMm = Math.abs(end - next);
  return stepMm > certainlyWrongMm && stepMm > 5 * spanMm;
}

/** Only within a set-up of the rail: the next one may stand at any height. */
function linesOf(readings: readonly Reading[]): readonly (readonly number[])[] {
  const byLine = new Map<string, number[]>();
  readings.forEach((reading, i) => {
    const key = `${reading.setup} ${reading.line ?? reading.yMm}`;
    const line = byLine.get(key);
    if (line === undefined) byLine.set(key, [i]);
    else line.push(i);
  });
  return [...byLine.values()];
}
