/**
 * One growth common to all runs of wear, each with a start of its own.
 *
 * Least squares, weighted by the known standard uncertainties: in every run time and depth are counted from their weighted means, so
 * that the starts drop out: rate = Σ w·(t − t̄)·(d − d̄) / Σ w·(t − t̄)², Var = 1 / Σ w·(t − t̄)². At the mean time of a run the line
 * passes through its mean depth, with variance 1 / Σ w, and the two are uncorrelated.
 *
 * Depths in mm, time in any unit (years, hundreds of hours). Source: the normal equations of a straight line with weights (Bevington,
 * Robinson, Data Reduction and Error Analysis, ch. 6, from memory), summed over lines of the same slope.
 */
import { scatterFactor } from "./scatterFactor.ts";

export type GrowthPoint = {
  readonly at: number;
  readonly depthMm: number;
  /** Standard. */
  readonly uMm: number;
  readonly run: number;
  /** The wear may go deeper than it reads. */
  readonly atLeast: boolean;
};

export type Growth = {
  /** mm in a unit of time, and its standard uncertainty as the readings' own uncertainties make it. */
  readonly rateMm: number;
  readonly rateUMm: number;
  /** So many standard uncertainties hold the true value about 95 of 100 times. */
  readonly factor: number;
  readonly chiSquared: number;
  readonly degreesOfFreedom: number;
  /** Points in the runs that tell a growth, and the number of those runs. */
  readonly points: number;
  readonly runs: number;
  /**
   * What depths that may be deeper than they read do to the rate: nothing; it is "at least" what it is (they come late in their
   * runs); or it may be off either way.
   */
  readonly hidden: "nothing" | "at least" | "either way";
  /** Where the line of each run passes, by run. */
  readonly lines: ReadonlyMap<number, LineThrough>;
};

export type LineThrough = { readonly at: number; readonly depthMm: number; readonly uMm: number };

/** Null where no run has points at two times. */
export function commonGrowth(points: readonly GrowthPoint[]): Growth | null {
  const byRun = new Map<number, GrowthPoint[]>();
  for (const point of points) byRun.set(point.run, [...(byRun.get(point.run) ?? []), point]);
  const lines = new Map([...byRun].map(([run, ofRun]) => [run, meanOf(ofRun)] as const));
  const telling = [...byRun].filter(([, ofRun]) => ofRun.some(({ at }) => at !== ofRun[0].at));
  const counted = telling.flatMap(([run, ofRun]) =>
    ofRun.map((point) => {
      const line = lines.get(run) ?? meanOf(ofRun);
      return { ...point, since: point.at - line.at, above: point.depthMm - line.depthMm, weight: 1 / point.uMm ** 2 };
    }),
  );
  const spread = sum(counted.map(({ weight, since }) => weight * since ** 2));
  if (!(spread > 0)) return null;
  const rateMm = sum(counted.map(({ weight, since, above }) => weight * since * above)) / spread;
  const chiSquared = sum(counted.map(({ weight, since, above }) => weight * (above - rateMm * since) ** 2));
  const degreesOfFreedom = counted.length - telling.length - 1;
  const pulls = counted.filter(({ atLeast }) => atLeast).map(({ since }) => since);
  return {
    rateMm,
    rateUMm: Math.sqrt(1 / spread),
    factor: scatterFactor(chiSquared, degreesOfFreedom),
    chiSquared,
    degreesOfFreedom,
    points: counted.length,
    runs: telling.length,
    hidden: pulls.length === 0 ? "nothing" : pulls.every((since) => since >= 0) ? "at least" : "either way",
    lines,
  };
}

function meanOf(points: readonly GrowthPoint[]): LineThrough {
  const weights = points.map(({ uMm }) => 1 / uMm ** 2);
  const all = sum(weights);
  return {
    at: sum(points.map(({ at }, i) => weights[i] * at)) / all,
    depthMm: sum(points.map(({ depthMm }, i) => weights[i] * depthMm)) / all,
    uMm: Math.sqrt(1 / all),
  };
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, number) => total + number, 0);
}
