/**
 * Drift of the gauge, told from places read again, and taken out where it is more than scatter.
 *
 * Within a set-up readings are taken to follow one another at even steps, in the order of the file, and the gauge to drift in
 * proportion: a reading at time t (0 the first of its set-up, 1 the last) stands b·t too high. Every place read again has a
 * height of its own, so that
 *
 *   z = height of its place + b·t,   b = Σ (t − mean t of the place)(z − mean z of the place) / Σ (t − mean t of the place)²
 *
 * by least squares over those places; where each was read twice that is the line through zero of re-read less first against
 * the time between them. Readings scatter by s about it (scatter.ts), and u(b) = s / √Σ (t − mean t)².
 *
 * The drift is taken out where |b| > t·u(b), t Student's for 95 % and the degrees of freedom of s (JCGM 100:2008, G.3): from
 * 0.04 mm on where one place was read again at the end, 0.02 where three were.
 *
 * Left uncertain, standard, in the difference of two heights read at any two times (E (t₁ − t₂)² = 1/6):
 *
 *   u(b)/√6 where it was taken out;   √(b² + u(b)²)/√6 where it was not (JCGM 100:2008, F.2.4.5)
 *
 * in: readings, mm -> out: readings without drift, what was found (null where nothing was read again), that uncertainty in mm.
 * Sign: positive where the gauge reads higher as time goes on.
 */
import type { Gauge } from "../board/settings.ts";
import { tQuantile } from "../maths/quantiles.ts";
import type { Reading, Readings } from "../readings/readings.ts";
import { type CheckedPlace, checkedPlaces } from "./checkedPlaces.ts";
import { scatterOf } from "./scatter.ts";

export type Drift = {
  /** Readings marked `check` at places that were read before. */
  readonly checks: number;
  /** From the first reading of a set-up to its last, mm; of the set-up that drifted most. */
  readonly mm: number;
  /** Whether it was taken out. */
  readonly corrected: boolean;
};

export type WithoutDrift = {
  readonly readings: Readings;
  readonly drift: Drift | null;
  /** Standard uncertainty that drift leaves in a difference of two heights, mm; 0 where nothing was read again. */
  readonly driftUMm: number;
};

const confidence = 0.95;

export function withoutDrift(readings: Readings, gauge: Gauge): WithoutDrift {
  const places = checkedPlaces(readings.readings);
  if (places.length === 0) return { readings, drift: null, driftUMm: 0 };
  const times = timesInSetup(readings.readings);
  const slopes = readings.setups.flatMap((_, setup) => {
    const ofSetup = places.filter((place) => place.setup === setup);
    return ofSetup.length === 0 ? [] : [slopeOf(setup, ofSetup, readings.readings, times, gauge)];
  });
  const most = slopes.reduce((one, other) => (Math.abs(other.mm) > Math.abs(one.mm) ? other : one));
  const takenOut = new Map(slopes.filter((slope) => slope.corrected).map((slope) => [slope.setup, slope.mm]));
  return {
    readings: {
      ...readings,
      readings: readings.readings.map((reading, i) => {
        const mm = takenOut.get(reading.setup);
        return mm === undefined ? reading : { ...reading, gaugeMm: reading.gaugeMm - mm * times[i] };
      }),
    },
    drift: { checks: checksAt(places, readings.readings), mm: most.mm, corrected: most.corrected },
    driftUMm: Math.max(...slopes.map(({ mm, u, corrected }) => (corrected ? u : Math.hypot(mm, u)) / Math.sqrt(6))),
  };
}

/** Place of each reading in its set-up: 0 the first, 1 the last. */
function timesInSetup(readings: readonly Reading[]): Float64Array {
  const counts = new Map<number, number>();
  const times = Float64Array.from(readings, ({ setup }) => {
    const before = counts.get(setup) ?? 0;
    counts.set(setup, before + 1);
    return before;
  });
  return times.map((time, i) => time / Math.max(1, (counts.get(readings[i].setup) ?? 0) - 1));
}

type Slope = { readonly setup: number; readonly mm: number; readonly u: number; readonly corrected: boolean };

function slopeOf(
  setup: number,
  places: readonly CheckedPlace[],
  readings: readonly Reading[],
  times: Float64Array,
  gauge: Gauge,
): Slope {
  let timeSquares = 0;
  let products = 0;
  let heightSquares = 0;
  let freedom = -1;
  for (const { at } of places) {
    const meanTime = meanOf(at.map((i) => times[i]));
    const meanMm = meanOf(at.map((i) => readings[i].gaugeMm));
    for (const i of at) {
      const time = times[i] - meanTime;
      const offMm = readings[i].gaugeMm - meanMm;
      timeSquares += time ** 2;
      products += time * offMm;
      heightSquares += offMm ** 2;
    }
    freedom += at.length - 1;
  }
  const mm = products / timeSquares;
  const leftSquares = Math.max(0, heightSquares - mm * products);
  const { scatterMm, freedom: allFreedom } = scatterOf(leftSquares, freedom, gauge);
  const u = scatterMm / Math.sqrt(timeSquares);
  const corrected = Math.abs(mm) > tQuantile((1 + confidence) / 2, allFreedom) * u;
  return { setup, mm, u, corrected };
}

function checksAt(places: readonly CheckedPlace[], readings: readonly Reading[]): number {
  return places.reduce((sum, { at }) => sum + at.slice(1).filter((i) => readings[i].mark === "check").length, 0);
}

function meanOf(numbers: readonly number[]): number {
  return numbers.reduce((sum, number) => sum + number, 0) / numbers.length;
}
