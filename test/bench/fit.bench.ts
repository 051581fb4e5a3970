/**
 * How fast the ideal surface is fitted to 100,000 readings: the program's way beside a general Levenberg–Marquardt.
 *
 * The program's way is Gauss–Newton on some of the readings, and one step on all of them from there.
 * Plain ordinary least squares with the ten numbers of the shape, the same readings, the same start, the same analytic gradient, in one
 * run. Each is given the fewest rounds that bring its sum of squares within a millionth of the least (the package
 * ml-levenberg-marquardt has no stop for noisy readings), and if there is none, as many as are tried here.
 * Prints both times (the processor's, best of nine), the rounds, and the ratio, which says the same on a slow machine and a fast one.
 * Not part of the tests. Run it with `tsx test/bench/fit.bench.ts`.
 */
import { levenbergMarquardt } from "ml-levenberg-marquardt";
import { readReadingsFile } from "../../server/core/readings/readReadingsFile.ts";
import { type FitReadings, thinned } from "../../server/core/surface/fitReadings.ts";
import { noForm } from "../../server/core/surface/form.ts";
import {
  heightMm,
  parameterNames,
  type SurfaceShape,
  surfacePlan,
  writeHeightGradient,
} from "../../server/core/surface/idealSurface.ts";
import { setUpsOf } from "../../server/core/surface/setUps.ts";
import { type Placed, residualsMm, surfaceStep } from "../../server/core/surface/surfaceStep.ts";
import { instrumentFrom } from "../server/core/board/boards.ts";
import { scanCsv } from "./support/scanCsv.ts";

const count = 100_000;
/** As many find the surface in the program too (unwornSurface.ts). */
const enoughToFind = 3000;
const roundsTried = [2, 3, 4, 5, 6, 8, 10, 15, 25, 50, 100];
const roundsForLeast = 8;
const runs = 9;

const file = readReadingsFile([...scanCsv(count)].join(""));
const settings = Object.fromEntries(file.entries.map(({ key, value }) => [key, value]));
const plan = surfacePlan(instrumentFrom(settings));
const readings = fitted();
/** The facet's two slopes are no unknowns of this board. */
const names = parameterNames.filter((name) => !name.startsWith("facet"));
const start: SurfaceShape = {
  ...(Object.fromEntries(parameterNames.map((name) => [name, 0])) as SurfaceShape),
  heightMm: 13,
  radiusNutMm: 60,
  radiusMiddleMm: 60,
  radiusEndMm: 60,
  hollowLowestMm: 1,
  hollowHighestMm: 1,
  hollowDeepest: 0.5,
};

function fitted(): FitReadings {
  const column = (of: "x" | "y" | "height") => Float64Array.from({ length: count }, (_, i) => file.readings.at(i)[of]);
  const [xMm, yMm, setUp] = [column("x"), column("y"), new Uint16Array(count)];
  return { count, xMm, yMm, heightMm: column("height"), setUp, setUps: setUpsOf(setUp, xMm, yMm, 1) };
}

/** So many rounds on some of the readings, then one on all, as the program fits a scan: sum of squares, mm². */
function bySteps(rounds: number): number {
  const some = thinned(readings, enoughToFind);
  let shape = start;
  for (let round = 0; round < rounds; round += 1) shape = stepped(shape, some);
  return squaresMm2(stepped(shape, readings));
}

function stepped(shape: SurfaceShape, taken: FitReadings): SurfaceShape {
  const placed: Placed = { shape, form: noForm, setUpUnknowns: new Float64Array(0) };
  const weights = new Float64Array(taken.count).fill(1);
  const known = { constraints: [], formSpreadMm: 1 };
  const step = surfaceStep(taken, plan, known, placed, residualsMm(taken, plan, placed), weights, 1);
  if (step.outcome === "undetermined") throw new Error("the scan does not determine the surface");
  return step.placed.shape;
}

function squaresMm2(shape: SurfaceShape): number {
  const residuals = residualsMm(readings, plan, { shape, form: noForm, setUpUnknowns: new Float64Array(0) });
  return residuals.reduce((sum, residual) => sum + residual ** 2, 0);
}

/** The same by the package. */
function byLevenbergMarquardt(rounds: number): number {
  const gradient = new Float64Array(parameterNames.length);
  // The package only reads it by index: handing over the same array each time spares it an array a reading.
  const asNumbers = gradient as unknown as number[];
  const shapeOf = (values: readonly number[]): SurfaceShape => ({
    ...start,
    ...Object.fromEntries(names.map((name, j) => [name, values[j]])),
  });
  const fit = levenbergMarquardt(
    { x: Float64Array.from({ length: count }, (_, i) => i), y: readings.heightMm },
    (values) => {
      const shape = shapeOf(values);
      return (i) => heightMm(plan, shape, readings.xMm[i], readings.yMm[i]);
    },
    {
      initialValues: names.map((name) => start[name]),
      jacobianFunction: (values) => {
        const shape = shapeOf(values);
        return (i) => {
          writeHeightGradient(plan, shape, readings.xMm[i], readings.yMm[i], gradient);
          return asNumbers;
        };
      },
      maxIterations: rounds,
      errorTolerance: 0,
    },
  );
  return fit.parameterError;
}

/** Best of nine after one to warm up, ms of the processor's time: it doesn't grow while others share the machine. */
function bestMs(work: () => unknown): number {
  work();
  const times = Array.from({ length: runs }, () => {
    const before = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1000;
  });
  return Math.min(...times);
}

function fewestRounds(squaresAfter: (rounds: number) => number, leastMm2: number): number {
  return (
    roundsTried.find((rounds) => squaresAfter(rounds) <= leastMm2 * (1 + 1e-6)) ?? roundsTried[roundsTried.length - 1]
  );
}

const leastMm2 = bySteps(roundsForLeast);
const [gaussNewton, levenberg] = [bySteps, byLevenbergMarquardt].map((squaresAfter) => {
  const rounds = fewestRounds(squaresAfter, leastMm2);
  return { rounds, ms: bestMs(() => squaresAfter(rounds)), leftMm2: squaresAfter(rounds) };
});

console.log(`${count} readings, ten numbers, ordinary least squares, best of nine`);
for (const [name, { rounds, ms, leftMm2 }] of [
  ["Gauss–Newton       ", gaussNewton],
  ["Levenberg–Marquardt", levenberg],
] as const) {
  console.log(`${name}  ${rounds} rounds  ${ms.toFixed(0)} ms  sum of squares ${leftMm2.toFixed(4)} mm²`);
}
console.log(`ratio                ${(levenberg.ms / gaussNewton.ms).toFixed(1)}`);
