/**
 * How long an examination takes: 400 readings of a worn cello, the program warm.
 *
 * Prints the median of 30 examinations in ms, that of a plain ordinary-least-squares fit of the same readings (ten numbers, one
 * Gauss–Newton step from the workshop's shape) in the same run, and their ratio, which says the same on a slow machine and a
 * fast one. Not part of the tests. Run it with `tsx test/bench/examine.bench.ts`.
 */
import { makeBoard, withWood } from "../../data/make/board.ts";
import { examine } from "../../server/core/examine.ts";
import { solveLeastSquares } from "../../server/core/maths/leastSquares.ts";
import { median } from "../../server/core/maths/quantiles.ts";
import { readReadingsFile } from "../../server/core/readings/readReadingsFile.ts";
import { readThicknessFile } from "../../server/core/readings/readThicknessFile.ts";
import {
  heightMm,
  type SurfacePlan,
  type SurfaceShape,
  writeHeightGradient,
} from "../../server/core/surface/idealSurface.ts";
import { loadInstrumentTable } from "../../server/instrumentTable.ts";
import { aims, evenEdges, syntheticBoard } from "../support/syntheticBoards.ts";

const runs = 30;

const recipe = syntheticBoard("cello", "20 x 20", 7, true);
const made = withWood(makeBoard(recipe), recipe, evenEdges(recipe.plan, aims.cello.edgeLimitMm + 0.8));
const given = {
  readings: readReadingsFile(made.readingsCsv),
  thickness: readThicknessFile(made.thicknessCsv ?? ""),
  rail: null,
  settings: [],
  table: loadInstrumentTable(),
  version: "bench",
};

function examineOnce(): number {
  const answer = examine(given);
  if (answer.outcome === "faulty") throw new Error(answer.faults.map(({ saw }) => saw).join("\n"));
  return answer.examination.points.length;
}

const plan: SurfacePlan = {
  lengthMm: recipe.plan.lengthMm,
  lowest: { nutMm: -recipe.plan.spacingNutMm / 2, endMm: (-recipe.plan.spacingBridgeMm / 2) * 0.9 },
  highest: { nutMm: recipe.plan.spacingNutMm / 2, endMm: (recipe.plan.spacingBridgeMm / 2) * 0.9 },
  ridge: null,
};
const start: SurfaceShape = {
  heightMm: 10,
  pitch: 0,
  crownNutMm: 0,
  crownEndMm: 0,
  radiusNutMm: aims.cello.radiusMm,
  radiusMiddleMm: aims.cello.radiusMm,
  radiusEndMm: aims.cello.radiusMm,
  hollowLowestMm: aims.cello.lowestMm,
  hollowHighestMm: aims.cello.highestMm,
  hollowDeepest: 0.5,
  facetSlopeNut: 0,
  facetSlopeEnd: 0,
};

function fitOnce(): number {
  const columns = 10;
  const { readings } = made.truth;
  const entries = new Float64Array(readings.length * columns);
  const observed = new Float64Array(readings.length);
  const gradient = new Float64Array(12);
  readings.forEach(({ crosslineMm, yMm, readMm }, i) => {
    writeHeightGradient(plan, start, crosslineMm, yMm, gradient);
    entries.set(gradient.subarray(0, columns), i * columns);
    observed[i] = readMm - heightMm(plan, start, crosslineMm, yMm);
  });
  const solved = solveLeastSquares({ rows: readings.length, columns, entries }, observed);
  if (solved.outcome === "undetermined") throw new Error(solved.why);
  return solved.coefficients.length;
}

/** Median of the runs, ms; a few before them to warm up. */
function medianMs(work: () => number): number {
  for (let i = 0; i < 5; i++) work();
  const times = Array.from({ length: runs }, () => {
    const from = performance.now();
    work();
    return performance.now() - from;
  });
  return median(times);
}

const examinationMs = medianMs(examineOnce);
const fitMs = medianMs(fitOnce);
console.log(`${examineOnce()} readings, median of ${runs}`);
console.log(`examination       ${examinationMs.toFixed(1)} ms`);
console.log(`least squares fit ${fitMs.toFixed(2)} ms`);
console.log(`ratio             ${(examinationMs / fitMs).toFixed(0)}`);
