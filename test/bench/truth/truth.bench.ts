/**
 * How near the truth the tool comes: seeded boards of every kind, grid, noise and share of wear, beside what is really there.
 *
 *   npm run bench:truth -- --seed 7 --boards 20 --parts surfaces,estimators --grids "7 x 11,7 x 13"
 *
 * Prints tables; the goals it names are told as met or not met, and never fail the run. Fresh seeds give fresh boards: what
 * was tuned on some must hold on others. Not part of the tests.
 */
import { benchArguments } from "./arguments.ts";
import { bands, boardsOf, readAtEachNoise, type SurfaceRun, surfaceRun } from "./surfaceRuns.ts";
import { estimatorTable, goals, grouped, toolTable } from "./surfaceTables.ts";

const asked = benchArguments(process.argv.slice(2));
const from = performance.now();
const seconds = (): string => `${((performance.now() - from) / 1000).toFixed(0)} s`;

/** Every cell has seeds of its own. */
let nextSeed = asked.seed * 100_000;
function seedsFor(count: number): number {
  const first = nextSeed;
  nextSeed += count;
  return first;
}

const runs: SurfaceRun[] = [];
for (const grid of asked.grids) {
  for (const [band, share] of Object.entries(bands)) {
    const boards = boardsOf(grid, "ideal", share, asked.boards, seedsFor(asked.boards));
    for (const board of boards) {
      for (const read of readAtEachNoise(board)) runs.push(surfaceRun(read, band, asked.parts.includes("estimators")));
    }
  }
}
for (const family of ["hand-planed", "facet"] as const) {
  for (const grid of asked.grids.filter((one) => one.startsWith("7"))) {
    for (const band of ["0 %", "15-30 %"]) {
      const boards = boardsOf(grid, family, bands[band]!, asked.boards, seedsFor(asked.boards));
      for (const board of boards) {
        for (const read of readAtEachNoise(board))
          runs.push(surfaceRun(read, band, asked.parts.includes("estimators")));
      }
    }
  }
}

const ideal = runs.filter(({ family }) => family === "ideal");
console.log(`truth bench: seed ${asked.seed}, ${asked.boards} boards a cell, each read at three noises; ${seconds()}`);
console.log(
  `goals: ratio to the oracle median <= ${goals.median}, tail (p99; max where under 100 boards) <= ${goals.tail}; worst rms <= ` +
    `${1000 * goals.worstMm} um where the oracle is under ${1000 * goals.oracleGoodMm} um; |bias| < ${goals.bias} noise at no wear; depth < ${goals.depth} noise rms`,
);
console.log(
  toolTable(
    "the tool's surface, by grid",
    grouped(ideal, ({ grid }) => grid),
  ),
);
console.log(
  toolTable(
    "by grid and share worn",
    grouped(ideal, ({ grid, band }) => `${grid}, ${band}`),
  ),
);
console.log(
  toolTable(
    "by grid, share worn and noise",
    grouped(ideal, ({ grid, band, noiseMm }) => `${grid}, ${band}, ${noiseMm}`),
  ),
);
const others = runs.filter(({ family }) => family !== "ideal");
console.log(
  toolTable(
    "other families",
    grouped(others, ({ family, grid, band }) => `${family}, ${grid}, ${band}`),
  ),
);
if (asked.parts.includes("estimators")) {
  console.log(
    estimatorTable(
      "estimators: median / tail / worst um, by grid",
      grouped(ideal, ({ grid }) => grid),
    ),
  );
  console.log(
    estimatorTable(
      "by grid and share worn",
      grouped(ideal, ({ grid, band }) => `${grid}, ${band}`),
    ),
  );
  console.log(
    estimatorTable(
      "other families",
      grouped(others, ({ family, grid, band }) => `${family}, ${grid}, ${band}`),
    ),
  );
}
console.log(`\n${seconds()}`);
