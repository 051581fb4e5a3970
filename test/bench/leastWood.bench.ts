/**
 * How long the least cut takes: over 400, 20,000 and 100,000 places of a worn violin board.
 *
 * Prints, for 20,000 places, the time of the whole least cut (every linearisation, to the standstill), that of `highs` for the
 * last of its linear programmes alone, the two optima, and the ratio of the times, which says the same on a slow machine and
 * a fast one. Then the time of the whole plan over 400 and over 100,000 places. Not part of the tests.
 * Run it with `tsx test/bench/leastWood.bench.ts`.
 */
import loadHighs from "highs";
import { median } from "../../server/core/maths/quantiles.ts";
import { seededRandom } from "../../server/core/maths/seededRandom.ts";
import { outlinePlaces, type PresentPlace } from "../../server/core/planing/cutPlaces.ts";
import { type LeastCutTask, leastCut, smallestDeepestCut } from "../../server/core/planing/leastCut.ts";
import { type PlanTask, planBoard } from "../../server/core/planing/planingPlan.ts";
import { secondAim } from "../../server/core/planing/secondAim.ts";
import { targetChoice } from "../../server/core/planing/targetChoice.ts";
import { placementNames, targetGradient, targetShape } from "../../server/core/planing/targetSurface.ts";
import { heightMm } from "../../server/core/surface/idealSurface.ts";
import { knownSurface, shapeWith, violin } from "../server/core/plainBoards.ts";

const job = {
  aim: "workshop",
  spare: "wood",
  templateRadiiMm: [],
  build: "solid",
  valuable: false,
  loose: false,
  newBoard: false,
} as const;

/** A board a little off the workshop's shape, rolled and pitched, with noise and forty pits. */
function planTask(count: number): PlanTask {
  const random = seededRandom(count);
  const shape = shapeWith({ pitch: 0.001, crownNutMm: 0.4, crownEndMm: -0.2, radiusNutMm: 41, radiusEndMm: 43 });
  const surface = knownSurface(shape);
  const lengthMm = violin.boardLengthMm.value;
  const pits = Array.from({ length: 40 }, () => ({
    xMm: 0.5 * lengthMm * random.uniform(),
    yMm: 20 * random.uniform() - 10,
    depthMm: 0.3 * random.uniform(),
  }));
  const places = Array.from({ length: count }, (): PresentPlace => {
    const xMm = 3 + (lengthMm - 6) * random.uniform();
    const yMm = (2 * random.uniform() - 1) * (9 + (11 * xMm) / lengthMm);
    const wornMm = pits.reduce(
      (sum, pit) => sum + pit.depthMm * Math.exp(-((xMm - pit.xMm) ** 2) / 30 - (yMm - pit.yMm) ** 2 / 6),
      0,
    );
    const presentMm = heightMm(surface.plan, shape, xMm, yMm) - wornMm + 0.005 * random.normal();
    return { xMm, yMm, presentMm, uncertaintyMm: 0.005, readings: [] };
  });
  return {
    choice: targetChoice(surface, violin, job),
    places,
    outlinePlaces: outlinePlaces(surface, violin),
    sparePlaces: [],
    allowanceMm: 0,
    plainWithinMm: 0.005,
    spareUMm: 0,
    secondAim: secondAim(violin, "wood"),
  };
}

function cutTask({ choice, places, allowanceMm }: PlanTask): LeastCutTask {
  return {
    ...choice,
    places: places.map((place) => ({ ...place, spareMm: 0, capMm: null })),
    allowanceMm,
    plainWithinMm: null,
    secondAim: null,
  };
}

/** The last linear programme, about the target found, as text: every floor and every ceiling. */
function asText(task: LeastCutTask): string {
  const found = leastCut(task);
  if (found.outcome === "impossible") throw new Error("no target");
  const { placement } = found;
  const shape = targetShape(task.frame, placement);
  const gradientAt = targetGradient(task.frame, shape);
  const slopes = new Float64Array(placementNames.length);
  const rows = task.places.flatMap((place, i) => {
    gradientAt(place, slopes, 0);
    const sum = Array.from(slopes, (slope, j) => `${slope < 0 ? "-" : "+"} ${Math.abs(slope).toFixed(12)} m${j}`);
    const cutMm = place.presentMm - heightMm(task.frame.unworn.plan, shape, place.xMm, place.yMm);
    return [` f${i}: ${sum.join(" ")} <= ${cutMm.toFixed(12)}`, ` c${i}: ${sum.join(" ")} + t >= ${cutMm.toFixed(12)}`];
  });
  const ranges = placementNames.map((name, j) => {
    const [lower, upper] = task.bounds[name];
    return ` ${(lower - placement[name]).toFixed(12)} <= m${j} <= ${(upper - placement[name]).toFixed(12)}`;
  });
  return ["Minimize", " deepest: t", "Subject To", ...rows, "Bounds", ...ranges, " t free", "End"].join("\n");
}

function medianMs(runs: number, work: () => void): number {
  const times = Array.from({ length: runs }, () => {
    const from = performance.now();
    work();
    return performance.now() - from;
  });
  return median(times);
}

function solveOnce(task: LeastCutTask): number {
  const least = smallestDeepestCut(task);
  if (least === null) throw new Error("no target");
  return least.deepestMm;
}

const task = cutTask(planTask(20_000));
for (let i = 0; i < 3; i += 1) solveOnce(task);
const ownMs = medianMs(9, () => solveOnce(task));
const text = asText(task);
const highs = await loadHighs();
const options = { primal_feasibility_tolerance: 1e-9, dual_feasibility_tolerance: 1e-9 };
const secondMs = medianMs(3, () => highs.solve(text, options));
console.log(`20,000 places: least cut ${ownMs.toFixed(1)} ms, ${solveOnce(task).toFixed(6)} mm`);
console.log(
  `               highs, one programme ${secondMs.toFixed(0)} ms, ${highs.solve(text, options).ObjectiveValue.toFixed(6)} mm`,
);
console.log(`               ratio ${(secondMs / ownMs).toFixed(1)}`);

const small = planTask(400);
for (let i = 0; i < 20; i += 1) planBoard(small);
console.log(`400 places:    whole plan ${medianMs(30, () => planBoard(small)).toFixed(1)} ms`);
const large = planTask(100_000);
console.log(`100,000 places: whole plan ${medianMs(5, () => planBoard(large)).toFixed(0)} ms`);
