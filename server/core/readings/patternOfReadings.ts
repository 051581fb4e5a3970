/**
 * The pattern of the readings: at which crosslines and on how many lines they were taken.
 *
 * Places along closer than 1.5 mm to the next count as one crossline. A scan has no crosslines: where more than forty would
 * come out, or fewer than two readings lie on one, thirteen evenly spaced ones stand in for them.
 *
 * in: places of the readings in mm, as given -> out: crosslines in mm from the nut, rising, and the number of lines.
 */
import type { Instrument } from "../board/instrument.ts";
import { stringYMm } from "../board/stringPaths.ts";
import type { Readings } from "./readings.ts";

export type Pattern = { readonly crosslinesMm: readonly number[]; readonly lines: number };

const sameCrosslineMm = 1.5;
/** Two readings are on one line when they differ by less than this share of the distance between the outer strings. */
const sameLineShare = 0.06;
const mostCrosslines = 40;

export function patternOfReadings(readings: Readings, instrument: Instrument): Pattern {
  const xs = readings.readings.map((reading) => reading.xMm);
  const crosslines = clusterMeans(xs, sameCrosslineMm);
  const isScan = crosslines.length > mostCrosslines || crosslines.length * 2 > xs.length;
  const last = instrument.strings.length - 1;
  const shares = readings.readings.map(({ xMm, yMm }) => {
    const lowest = stringYMm(instrument, 0, xMm);
    return (yMm - lowest) / (stringYMm(instrument, last, xMm) - lowest);
  });
  return {
    crosslinesMm: isScan ? evenlySpaced(xs) : crosslines,
    lines: clusterMeans(shares, sameLineShare).length,
  };
}

function evenlySpaced(xs: readonly number[]): readonly number[] {
  const first = xs.reduce((least, x) => Math.min(least, x), Number.POSITIVE_INFINITY);
  const last = xs.reduce((most, x) => Math.max(most, x), Number.NEGATIVE_INFINITY);
  const count = 13;
  return Array.from({ length: count }, (_, i) => first + ((last - first) * i) / (count - 1));
}

/** Means of the runs of sorted numbers in which each is within `gap` of the one before. */
function clusterMeans(numbers: readonly number[], gap: number): readonly number[] {
  const sorted = Float64Array.from(numbers).sort();
  const means: number[] = [];
  let sum = 0;
  let count = 0;
  sorted.forEach((number, i) => {
    if (i > 0 && number - sorted[i - 1] > gap) {
      means.push(sum / count);
      sum = 0;
      count = 0;
    }
    sum += number;
    count += 1;
  });
  if (count > 0) means.push(sum / count);
  return means;
}
