/**
 * The rail's error from a survey of something straight: a straightedge, or a sheet of float glass.
 *
 * The gauge shows e(x), the rail's error, and f(x), the straightedge's own, and a line, since what is surveyed need not lie
 * parallel to the rail. At each place the readings of a set-up are averaged; set-ups count alike; the least-squares line is
 * taken off, so that a profile has neither offset nor slope.
 *
 * Reversal. A bar whose two edges are parallel, read on one edge and then turned over about its length (same end at the nut,
 * the other edge up), shows f first and −f then: where one edge stands proud the other stands back. So
 *
 *   a = e + f + line, b = e − f + line:   e = (a + b)/2, f = (a − b)/2, both less their line
 *
 * Turned end for end on the same edge it shows f(x) and f(ends − x): half the sum then holds what is alike in both halves of f,
 * above all its bow, and only what is unlike falls out. Sag under its own weight turns with neither.
 * Source: C. J. Evans and others, self-calibration by reversal, CIRP Annals 45/2 (1996) 617–634 (from memory).
 *
 * u, standard, of the mean at a place: s √(Σ 1/n) / set-ups, s the scatter of one reading (scatter.ts), n the readings of a
 * set-up there (JCGM 100:2008, 4.2). What is not known of the straightedge itself is not in it.
 *
 * in: checked readings, every set-up at the same x, mm -> out: profile in order of x, and the straightedge's own error.
 */
import type { Gauge } from "../board/settings.ts";
import type { RailPoint, RailProfile } from "../readings/railProfile.ts";
import type { Readings } from "../readings/readings.ts";
import { scatterOf } from "./scatter.ts";

export type RailSurvey = {
  readonly profile: RailProfile;
  readonly readings: number;
  readonly setups: number;
  /** Largest own error of a bar that was turned over, mm; null unless there were two set-ups. */
  readonly barErrorMm: number | null;
};

export function railSurvey(readings: Readings, gauge: Gauge): RailSurvey {
  const setups = readings.setups.length;
  const xs = [...new Set(readings.readings.map(({ xMm }) => xMm))].sort((a, b) => a - b);
  const heights = heightsBySetupAndPlace(readings);
  const at = (setup: number, xMm: number): readonly number[] => heights.get(setup)?.get(xMm) ?? [];
  const { scatterMm } = scatterOf(
    ...squaresAndFreedom([...heights.values()].flatMap((places) => [...places.values()])),
    gauge,
  );

  const numbers = [...readings.setups.keys()];
  const means = numbers.map((setup) => xs.map((xMm) => meanOf(at(setup, xMm))));
  const errorsMm = lessLine(
    xs,
    xs.map((_, i) => meanOf(means.map((ofSetup) => ofSetup[i]))),
  );
  const profile = xs.map((xMm, i): RailPoint => {
    const inverseCounts = numbers.reduce((sum, setup) => sum + 1 / at(setup, xMm).length, 0);
    return { xMm, errorMm: errorsMm[i], uMm: (scatterMm * Math.sqrt(inverseCounts)) / setups };
  });
  return {
    profile,
    readings: readings.readings.length,
    setups,
    barErrorMm: setups === 2 ? barErrorMm(xs, means) : null,
  };
}

function heightsBySetupAndPlace(readings: Readings): ReadonlyMap<number, ReadonlyMap<number, readonly number[]>> {
  const heights = new Map<number, Map<number, number[]>>();
  for (const { setup, xMm, gaugeMm } of readings.readings) {
    const places = heights.get(setup) ?? new Map<number, number[]>();
    heights.set(setup, places);
    const repeats = places.get(xMm);
    if (repeats === undefined) places.set(xMm, [gaugeMm]);
    else repeats.push(gaugeMm);
  }
  return heights;
}

/** Of repeats about the means of their places. */
function squaresAndFreedom(places: readonly (readonly number[])[]): [squares: number, freedom: number] {
  let squares = 0;
  let freedom = 0;
  for (const repeats of places) {
    const mean = meanOf(repeats);
    squares += repeats.reduce((sum, height) => sum + (height - mean) ** 2, 0);
    freedom += repeats.length - 1;
  }
  return [squares, freedom];
}

function barErrorMm(xs: readonly number[], [one, other]: readonly (readonly number[])[]): number {
  const own = lessLine(
    xs,
    xs.map((_, i) => (one[i] - other[i]) / 2),
  );
  return own.reduce((most, errorMm) => Math.max(most, Math.abs(errorMm)), 0);
}

/** Heights less their least-squares line. */
function lessLine(xs: readonly number[], heightsMm: readonly number[]): readonly number[] {
  const meanX = meanOf(xs);
  const meanMm = meanOf(heightsMm);
  const products = xs.reduce((sum, x, i) => sum + (x - meanX) * (heightsMm[i] - meanMm), 0);
  const slope = products / xs.reduce((sum, x) => sum + (x - meanX) ** 2, 0);
  return heightsMm.map((height, i) => height - meanMm - slope * (xs[i] - meanX));
}

function meanOf(numbers: readonly number[]): number {
  return numbers.reduce((sum, number) => sum + number, 0) / numbers.length;
}
