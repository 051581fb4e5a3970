/**
 * The readings as the fit takes them: columns of numbers, tip compensated on the slopes of a surface.
 *
 * Left out are the places that were searched for by hand for being low (marked `lowest`): they say how deep wear is, not where the
 * unworn surface lies. Lengths in mm.
 */
import { type SlopesAt, touchOf } from "../compensation/tip.ts";
import type { Readings } from "../readings/readings.ts";
import { type SetUps, setUpsOf } from "./setUps.ts";

export type FitReadings = {
  readonly count: number;
  readonly xMm: Float64Array;
  readonly yMm: Float64Array;
  readonly heightMm: Float64Array;
  readonly setUp: Uint16Array;
  readonly setUps: SetUps;
};

export function fitReadings(readings: Readings, tipRadiusMm: number, slopesAt: SlopesAt): FitReadings {
  const taken = readings.readings.filter((reading) => reading.mark !== "lowest");
  const count = taken.length;
  const [xMm, yMm, heightMm] = [new Float64Array(count), new Float64Array(count), new Float64Array(count)];
  const setUp = new Uint16Array(count);
  taken.forEach((reading, i) => {
    const touch = touchOf(reading.xMm, reading.yMm, tipRadiusMm, slopesAt);
    xMm[i] = touch.xMm;
    yMm[i] = touch.yMm;
    heightMm[i] = reading.gaugeMm + touch.riseMm;
    setUp[i] = reading.setup;
  });
  return { count, xMm, yMm, heightMm, setUp, setUps: setUpsOf(setUp, xMm, yMm, readings.setups.length) };
}

/**
 * Some of the readings, spread evenly over the file's order without falling into step with its rows: those whose index times the
 * golden ratio has a small fraction.
 */
export function thinned(readings: FitReadings, most: number): FitReadings {
  if (readings.count <= most) return readings;
  const golden = (Math.sqrt(5) - 1) / 2;
  const share = most / readings.count;
  const kept: number[] = [];
  for (let i = 0; i < readings.count; i += 1) if (i * golden - Math.floor(i * golden) < share) kept.push(i);
  const pick = (column: Float64Array): Float64Array => Float64Array.from(kept, (i) => column[i]);
  return {
    count: kept.length,
    xMm: pick(readings.xMm),
    yMm: pick(readings.yMm),
    heightMm: pick(readings.heightMm),
    setUp: Uint16Array.from(kept, (i) => readings.setUp[i]),
    setUps: readings.setUps,
  };
}
