/**
 * The table of stated intervals: how many hold the truth, and how wide they are for what they hold.
 */
import { mean, median, rms, shareOf } from "./figures.ts";
import type { Interval } from "./intervals.ts";
import { type Cell, goal, percent, tableText } from "./table.ts";

export const intervalGoals = { covered: [0.93, 0.97], width: 2.6 } as const;

export type IntervalFigures = {
  readonly stated: number;
  /** Share of the intervals value ± U that hold the truth. */
  readonly covered: number;
  /** U over the root mean square of the errors, each in units of its own U: about 2 where intervals are just right (k = 2). */
  readonly width: number;
  /** Mean error in units of a reading's noise, and in units of U. */
  readonly biasOfNoise: number;
  readonly biasOfU: number;
  readonly rmsMm: number;
  readonly medianU: number;
};

export function intervalFigures(intervals: readonly Interval[]): IntervalFigures {
  return {
    stated: intervals.length,
    covered: shareOf(intervals, ({ offMm, u }) => Math.abs(offMm) <= u),
    width: 1 / rms(intervals.map(({ offMm, u }) => offMm / u)),
    biasOfNoise: mean(intervals.map(({ offMm, scatterMm }) => offMm / scatterMm)),
    biasOfU: mean(intervals.map(({ offMm, u }) => offMm / u)),
    rmsMm: rms(intervals.map(({ offMm }) => offMm)),
    medianU: median(intervals.map(({ u }) => u)),
  };
}

export function intervalTable(title: string, groups: readonly (readonly [string, readonly Interval[]])[]): string {
  const header = ["stated", "number", "covered", "rms mm", "median U", "U / rms", "bias / noise", "bias / U", "goals"];
  return tableText(
    title,
    header,
    groups.map(([name, intervals]): Cell[] => {
      const figures = intervalFigures(intervals);
      return [
        name,
        String(figures.stated),
        percent(figures.covered),
        figures.rmsMm.toFixed(4),
        figures.medianU.toFixed(4),
        figures.width,
        figures.biasOfNoise,
        figures.biasOfU,
        notMet(figures),
      ];
    }),
  );
}

function notMet({ covered, width }: IntervalFigures): string {
  const [least, most] = intervalGoals.covered;
  const missed = [
    covered < least ? "covers too little" : "",
    covered > most ? "covers too much" : "",
    width > intervalGoals.width ? "too wide" : "",
  ].filter((one) => one !== "");
  return missed.length === 0 ? goal(true) : `${goal(false)}: ${missed.join(", ")}`;
}
