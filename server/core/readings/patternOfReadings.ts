/**
 * The pattern of the readings: at which crosslines and on how many lines they were taken.
 *
 * Places along closer than 1.5 mm to the next count as one crossline. A scan has no crosslines: where more than forty would
 * come out, or fewer than two readings lie on one, thirteen evenly spaced ones stand in for them. Places that were searched for
 * (marked `lowest`) lie where they lie, and are part of no pattern.
 *
 * in: places of the readings in mm, as given -> out: crosslines in mm from the nut, rising, and the number of lines.
 */
import type { Instrument } from "../board/instrument.ts";
import { stringYMm } from "../board/stringPaths.ts";
import type { Reading, Readings } from "./readings.ts";

export type Pattern = { readonly crosslinesMm: readonly number[]; readonly lines: number };

const sameCrosslineMm = 1.5;
/** Width of the strips across that count as lines, as a share of the distance between the outer strings. */
const sameLineShare = 1 / 30;
/** Lines of constant y are one when they round to the same tenth of a millimetre. */
const sameYMm = 0.1;
const mostCrosslines = 40;
/** Distances that run into each other make few crosslines of very many. */
const fewestCrosslines = 5;

export function patternOfReadings(readings: Readings, instrument: Instrument): Pattern {
  const inTurn = readings.readings.filter((reading) => reading.mark !== "lowest");
  const xs = inTurn.map((reading) => reading.xMm);
  const crosslines = clusterMeans(xs, sameCrosslineMm);
  const runIntoEachOther = crosslines.length < fewestCrosslines && distinct(xs) > mostCrosslines;
  const isScan = crosslines.length > mostCrosslines || crosslines.length * 2 > xs.length || runIntoEachOther;
  return { crosslinesMm: isScan ? evenlySpaced(xs) : crosslines, lines: linesOf(inTurn, instrument) };
}

/** Named lines by their names; else as many as there are different y, or strips across that hold a reading, whichever is fewer. */
function linesOf(readings: readonly Reading[], instrument: Instrument): number {
  const last = instrument.strings.length - 1;
  const strips = readings.map(({ xMm, yMm, line }) => {
    if (line !== null) return line;
    const lowest = stringYMm(instrument, 0, xMm);
    return Math.round((yMm - lowest) / (stringYMm(instrument, last, xMm) - lowest) / sameLineShare);
  });
  const ys = readings.map(({ yMm, line }) => line ?? Math.round(yMm / sameYMm));
  return Math.min(new Set(strips).size, new Set(ys).size);
}

function distinct(numbers: readonly number[]): number {
  return new Set(numbers).size;
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
