/**
 * The tables of surfaces: each run's error beside the oracle's, by cell. Lengths in µm as printed.
 */

import { type BoardRun, toolName } from "./boardRun.ts";
import { mean, median, rms, tail } from "./figures.ts";
import { type Cell, goal, micrometres, tableText } from "./table.ts";

/** Goals: ratio to the oracle in the median and at the 99th percentile; worst rms where the oracle is good, mm; bias, depth. */
export const goals = { median: 1.5, tail: 3, worstMm: 0.008, oracleGoodMm: 0.004, bias: 0.1, depth: 1 } as const;

export type SurfaceFigures = {
  /** Boards with an oracle to be measured against. */
  readonly measured: number;
  readonly oracleMm: number;
  readonly rmsMm: number;
  readonly medianRatio: number;
  readonly tailRatio: number;
  /** Seed of the board with the worst ratio. */
  readonly worstSeed: number;
  readonly worstMm: number;
  /** How much it floats above the oracle (negative: sinks below), which itself is unbiased, in units of the scatter. */
  readonly bias: number;
};

/** Runs in which both the estimator and the oracle gave a surface, with the ratio of their errors. */
function measuredRuns(runs: readonly BoardRun[], name: string) {
  return runs.flatMap((run) => {
    const error = run.surfaces[name];
    return run.oracle && error ? [{ run, error, oracle: run.oracle, ratio: error.rmsMm / run.oracle.rmsMm }] : [];
  });
}

export function surfaceFigures(runs: readonly BoardRun[], name: string): SurfaceFigures {
  const measured = measuredRuns(runs, name);
  const ratios = measured.map(({ ratio }) => ratio);
  const worst = measured.find(({ ratio }) => ratio === Math.max(...ratios));
  const good = measured.filter(({ oracle }) => oracle.rmsMm < goals.oracleGoodMm);
  return {
    measured: measured.length,
    oracleMm: median(measured.map(({ oracle }) => oracle.rmsMm)),
    rmsMm: median(measured.map(({ error }) => error.rmsMm)),
    medianRatio: median(ratios),
    tailRatio: tail(ratios),
    worstSeed: worst?.run.seed ?? Number.NaN,
    worstMm: good.length === 0 ? Number.NaN : Math.max(...good.map(({ error }) => error.rmsMm)),
    bias: mean(measured.map(({ run, error, oracle }) => (error.meanMm - oracle.meanMm) / run.scatterMm)),
  };
}

/** Error of the deepest place's depth in units of the scatter: root mean square. */
export function depthError(runs: readonly BoardRun[]): number {
  return rms(runs.flatMap((run) => (run.deepestOffMm === null ? [] : [run.deepestOffMm / run.scatterMm])));
}

export function toolTable(title: string, groups: readonly (readonly [string, readonly BoardRun[]])[]): string {
  const header = [
    "cell",
    "measured",
    "refused",
    "oracle um",
    "tool um",
    "median",
    "tail",
    "at seed",
    "worst um",
    "bias",
    "depth",
    "goals",
  ];
  return tableText(
    title,
    header,
    groups.map(([name, runs]): Cell[] => {
      const figures = surfaceFigures(runs, toolName);
      const depth = depthError(runs);
      const unworn = runs.every(({ band }) => band === "0 %");
      return [
        name,
        `${figures.measured} of ${runs.length}`,
        runs.some(({ refused }) => refused === null) ? "-" : String(runs.filter(({ refused }) => refused).length),
        micrometres(figures.oracleMm),
        micrometres(figures.rmsMm),
        figures.medianRatio,
        figures.tailRatio,
        figures.measured === 0 ? "-" : String(figures.worstSeed),
        micrometres(figures.worstMm),
        figures.bias,
        depth,
        notMet(figures, depth, unworn),
      ];
    }),
  );
}

/** "met", or which goals are not. */
function notMet(figures: SurfaceFigures, depth: number, unworn: boolean): string {
  if (figures.measured === 0) return "no oracle";
  const missed = [
    figures.medianRatio > goals.median ? "median" : "",
    figures.tailRatio > goals.tail ? "tail" : "",
    figures.worstMm > goals.worstMm ? "worst" : "",
    unworn && Math.abs(figures.bias) >= goals.bias ? "bias" : "",
    depth >= goals.depth ? "depth" : "",
  ].filter((one) => one !== "");
  return missed.length === 0 ? goal(true) : `${goal(false)}: ${missed.join(", ")}`;
}

/** Median, tail and worst µm of every estimator on the same boards. */
export function estimatorTable(title: string, groups: readonly (readonly [string, readonly BoardRun[]])[]): string {
  const names = Object.keys(groups[0]?.[1][0]?.surfaces ?? {}).sort();
  const rows = groups.map(([name, runs]) => [
    name,
    ...names.map((estimator) => {
      const { medianRatio, tailRatio, worstMm } = surfaceFigures(runs, estimator);
      return (
        [medianRatio, tailRatio].map((one) => (Number.isNaN(one) ? "-" : one.toFixed(2))).join(" / ") +
        ` / ${micrometres(worstMm)}`
      );
    }),
  ]);
  return tableText(title, ["cell", ...names], rows);
}

/** The boards on which the tool is worst beside the oracle: one seed, one board (boardsOf in benchBoard.ts makes it again). */
export function worstTable(title: string, runs: readonly BoardRun[], most: number): string {
  const worst = measuredRuns(runs, toolName)
    .sort((a, b) => b.ratio - a.ratio)
    .slice(0, most);
  return tableText(
    title,
    ["family, grid, worn, noise", "seed", "ratio", "tool um", "oracle um"],
    worst.map(({ run, error, oracle, ratio }) => [
      `${run.family}, ${run.grid}, ${run.band}, ${run.noiseMm}`,
      String(run.seed),
      ratio,
      micrometres(error.rmsMm),
      micrometres(oracle.rmsMm),
    ]),
  );
}
