/**
 * How near the truth the tool comes: seeded boards of every kind, grid, noise and share of wear, beside what is really there.
 *
 *   npm run bench:truth -- --seed 7 --boards 20 --parts surfaces,estimators --grids "7x11,7x13"
 *
 * Parts are surfaces (the fit alone: for tuning it), estimators, intervals (the whole examination: also decisions and the depth
 * of the deepest place) and alarms; all of them where none are named.
 *
 * Prints tables; the goals it names are told as met or not met, and never fail the run. Fresh seeds give fresh boards: what
 * was tuned on some must hold on others. Not part of the tests.
 */
import { alarmGoal, alarmsOn, alarmTable } from "./alarms.ts";
import { type Arguments, benchArguments } from "./arguments.ts";
import { bands, boardsOf, type GridName } from "./benchBoard.ts";
import type { Family } from "./benchShape.ts";
import { noisesMm, readAtEachNoise } from "./boardRead.ts";
import { type BoardRun, boardRun } from "./boardRun.ts";
import { decisionTable } from "./decisions.ts";
import { grouped, groupedTwice } from "./grouped.ts";
import { intervalGoals, intervalTable } from "./intervalTables.ts";
import { type Found, foundTable, pitsOn } from "./pits.ts";
import { estimatorTable, goals, toolTable, worstTable } from "./surfaceTables.ts";

const asked = benchArguments(process.argv.slice(2));
const from = performance.now();
const seconds = (): string => `${((performance.now() - from) / 1000).toFixed(0)} s`;

/** Seeds of the boards, one after another: a part left out takes none. */
let nextSeed = asked.seed * 100_000;
const cell = (grid: GridName, family: Family, band: string, count: number) => {
  const boards = boardsOf(grid, family, bands[band]!, count, nextSeed);
  nextSeed += count;
  return boards;
};

function runsOf({ parts, grids, boards }: Arguments): BoardRun[] {
  const wanted = { estimators: parts.includes("estimators"), examination: parts.includes("intervals") };
  const run = (grid: GridName, family: Family, band: string): BoardRun[] =>
    cell(grid, family, band, boards)
      .flatMap((board) => readAtEachNoise(board, wanted.examination))
      .map((read) => boardRun(read, band, wanted));
  const sevenLines = grids.filter((grid) => grid.startsWith("7"));
  return [
    ...grids.flatMap((grid) => Object.keys(bands).flatMap((band) => run(grid, "ideal", band))),
    ...sevenLines.flatMap((grid) => ["0 %", "15-30 %"].flatMap((band) => run(grid, "hand-planed", band))),
    ...sevenLines.flatMap((grid) => ["0 %", "15-30 %"].flatMap((band) => run(grid, "facet", band))),
  ];
}

function printSurfaces(runs: readonly BoardRun[]): void {
  const ideal = runs.filter(({ family }) => family === "ideal");
  const others = runs.filter(({ family }) => family !== "ideal");
  const byFamily = grouped(others, ({ family, grid, band }) => `${family}, ${grid}, ${band}`);
  console.log(
    `\nSURFACES. Goals: ratio to the oracle median <= ${goals.median}, tail (p99; greatest where under 100 boards) <= ${goals.tail}; worst rms <= ` +
      `${1000 * goals.worstMm} um where the oracle is under ${1000 * goals.oracleGoodMm} um; |bias| < ${goals.bias} noise at no wear; depth < ${goals.depth} noise rms`,
  );
  const byBand = grouped(ideal, ({ grid, band }) => `${grid}, ${band}`);
  const byNoise = grouped(ideal, ({ grid, band, noiseMm }) => `${grid}, ${band}, ${noiseMm}`);
  console.log(toolTable("the tool's surface, all", [["all", ideal]]));
  console.log(
    toolTable(
      "by grid",
      grouped(ideal, ({ grid }) => grid),
    ),
  );
  console.log(toolTable("by grid and share worn", byBand));
  console.log(toolTable("by grid, share worn and noise", byNoise));
  console.log(toolTable("other families", byFamily));
  console.log(
    worstTable(
      "the worst boards of five lines and more",
      runs.filter(({ grid }) => grid !== "3 x 5"),
      12,
    ),
  );
  if (!asked.parts.includes("estimators")) return;
  console.log("\nESTIMATORS: ratio to the oracle median / tail / worst um where the oracle is good");
  console.log(
    estimatorTable(
      "by grid",
      grouped(ideal, ({ grid }) => grid),
    ),
  );
  console.log(estimatorTable("by grid and share worn", byBand));
  console.log(estimatorTable("other families", byFamily));
}

function printIntervals(runs: readonly BoardRun[]): void {
  const [least, most] = intervalGoals.covered;
  console.log(
    `\nINTERVALS value +- U (k = 2). Goals: ${100 * least}-${100 * most} % hold the truth; U / rms <= ${intervalGoals.width}`,
  );
  for (const [family, those] of grouped(runs, (run) => run.family)) {
    const intervals = those.flatMap((run) => run.intervals.map((one) => ({ ...one, run })));
    console.log(
      intervalTable(
        `${family} boards`,
        grouped(intervals, ({ what }) => what),
      ),
    );
    if (family !== "ideal") continue;
    console.log(
      intervalTable(
        "by share worn",
        groupedTwice(
          intervals,
          ({ what }) => what,
          ({ run }) => run.band,
        ),
      ),
    );
    console.log(
      intervalTable(
        "by grid",
        groupedTwice(
          intervals,
          ({ what }) => what,
          ({ run }) => run.grid,
        ),
      ),
    );
  }
}

function printDecisions(runs: readonly BoardRun[]): void {
  console.log("\nDECISIONS where the truth is clear. Goal: none wrong");
  for (const [family, those] of grouped(runs, (run) => run.family)) {
    const decided = those.flatMap((run) => run.decided ?? []);
    if (decided.length > 0) console.log(decisionTable(`${family} boards`, decided));
  }
}

function printAlarms({ grids, boards }: Arguments): void {
  const fine = grids.filter((grid) => grid !== "3 x 5");
  const alarms = (["ideal", "hand-planed"] as const).flatMap((family) =>
    fine.flatMap((grid) => cell(grid, family, "0 %", boards).flatMap(alarmsOn)),
  );
  const dense = fine.filter((grid) => grid !== "5 x 7");
  const found = dense.flatMap((grid) =>
    cell(grid, "ideal", "0 %", boards).flatMap((board) => noisesMm.flatMap((noiseMm) => pitsOn(board, noiseMm))),
  );
  console.log(`\nALARMS. Goal: at most ${100 * alarmGoal} % of unworn boards with any worn place, or any hump`);
  console.log(
    alarmTable(
      "false alarms",
      grouped(alarms, ({ group }) => group),
    ),
  );
  const byNoise = ({ noiseMm }: Found): string => `noise ${noiseMm}`;
  const byGrid = ({ grid }: Found): string => grid;
  for (const other of [byNoise, byGrid])
    console.log(
      foundTable(
        "found",
        groupedTwice(found, ({ pit }) => pit, other),
      ),
    );
}

console.log(
  `truth bench: seed ${asked.seed}, ${asked.boards} boards a cell, each read at noise ${noisesMm.join(", ")} mm`,
);
if (asked.parts.some((part) => part !== "alarms")) {
  const runs = runsOf(asked);
  console.log(`boards ${asked.seed * 100_000} to ${nextSeed - 1}; ${seconds()}`);
  printSurfaces(runs);
  if (asked.parts.includes("intervals")) {
    printIntervals(runs);
    printDecisions(runs);
  }
}
if (asked.parts.includes("alarms")) printAlarms(asked);
console.log(`\n${seconds()}`);
