/**
 * How uncertain the least cut is, and how biased: the same programme on many boards that might have been read (Monte Carlo).
 *
 * The optimum on the heights as read is biased: of many noisy readings the lowest pushes the target down and the highest calls
 * for the deepest cut, and the more readings the more so. So the board is made quiet first (all places but the worn ones and
 * humps are put on the unworn surface), its own least cut is found, and then that of the quiet board with fresh noise on every place and
 * a surface off by what it is uncertain, again and again: how far these lie off on average is the bias, how they scatter the
 * standard uncertainty. The draws come from a fixed seed: the same readings make the same answer.
 *
 * Each draw is one linear programme about the quiet board's target, over its working rows and whatever else it offends against.
 *
 * Source: JCGM 101:2008, 5 and 7 (propagation of distributions by a Monte Carlo method); the bias as in the bootstrap, B. Efron,
 * Ann. Statist. 7 (1979) 1-26 (from memory). Lengths in mm.
 */
import { type SeededRandom, seededRandom } from "../maths/seededRandom.ts";
import { parameterNames } from "../surface/idealSurface.ts";
import { type SetUps, writeSetUp } from "../surface/setUps.ts";
import { heightGradient } from "../surface/surfaceUncertainty.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";
import type { WornReading } from "../wear/wearAtReadings.ts";
import type { PresentPlace } from "./cutPlaces.ts";
import { cutsOn, type Ground, groundOf } from "./ground.ts";
import { smallestDeepestCut } from "./leastCut.ts";
import { type LinearStep, solveLinearCut } from "./linearCut.ts";
import type { PlanTask } from "./planingPlan.ts";
import { placementNames, targetGradient, targetShape } from "./targetSurface.ts";
import { firstRows, type WorkingRows } from "./workingRows.ts";

export type CutSpread = {
  /** How much deeper than the true one the optimum on readings comes out, on average. */
  readonly biasMm: number;
  /** Standard uncertainty of the optimum, from noise and surface. */
  readonly standardMm: number;
};

const none: CutSpread = { biasMm: 0, standardMm: 0 };
const draws = 64;
/** A scan's optimum scatters little, and each of its draws takes long. */
const drawsOfScan = 30;
const manyPlaces = 5000;
const seed = 20_260_101;

/** None where no target is possible. */
export function cutSpread(
  task: Pick<PlanTask, "choice" | "places" | "allowanceMm">,
  surface: UnwornSurface,
  worn: ReadonlySet<WornReading>,
): CutSpread {
  const { frame, bounds, start } = task.choice;
  const { allowanceMm } = task;
  const places = inPlaceOrder(task.places);
  const quiet = places.map((place) => ({ ...place, presentMm: quietMm(place, worn), spareMm: 0, capMm: null }));
  const least = smallestDeepestCut({ frame, bounds, start, places: quiet, allowanceMm });
  if (least === null) return none;
  const ground = groundOf(quiet);
  const shape = targetShape(frame, least.start);
  const linear: Linear = {
    ground,
    slopes: slopesOf(ground, targetGradient(frame, shape)),
    solve: (cutsMm, rows, startAt) =>
      solveLinearCut(
        {
          ground,
          rows: rows.rows,
          slopes: rowSlopes(linear.slopes, rows),
          cutsMm,
          placement: least.start,
          bounds,
          allowanceMm,
          arc: "free",
          reach: 1,
          second: null,
        },
        startAt?.touching,
      ),
    changeOf: (step) => placementNames.map((name) => step.placement[name] - least.start[name]),
  };
  const cutsMm = cutsOn(ground, surface.plan, shape);
  const ofQuiet = optimum(linear, cutsMm, firstRows(ground, allowanceMm, cutsMm), null);
  if (ofQuiet === null) return none;

  const draw = noiseOn(places, surface, seededRandom(seed));
  const count = places.length > manyPlaces ? drawsOfScan : draws;
  const offMm: number[] = [];
  for (let k = 0; k < count; k += 1) {
    const noise = draw();
    const drawn = optimum(
      linear,
      cutsMm.map((mm, i) => mm + noise[i]),
      ofQuiet.rows,
      ofQuiet.step,
    );
    if (drawn) offMm.push(drawn.step.deepestMm - ofQuiet.step.deepestMm);
  }
  if (offMm.length < 2) return none;
  const biasMm = offMm.reduce((sum, off) => sum + off, 0) / offMm.length;
  const variance = offMm.reduce((sum, off) => sum + (off - biasMm) ** 2, 0) / (offMm.length - 1);
  return { biasMm, standardMm: Math.sqrt(variance) };
}

/** So that the draws don't hang on the order of the file, nor on which side is bass, nor on the unit that places came in. */
function inPlaceOrder(places: readonly PresentPlace[]): readonly PresentPlace[] {
  const rank = (mm: number): number => Math.round(mm * 1000);
  return [...places].sort(
    (a, b) =>
      rank(a.xMm) - rank(b.xMm) ||
      rank(Math.abs(a.yMm)) - rank(Math.abs(b.yMm)) ||
      rank(a.presentMm) - rank(b.presentMm) ||
      a.yMm - b.yMm,
  );
}

/** The place's height, on the unworn surface but for worn places and humps. */
function quietMm({ presentMm, readings }: PresentPlace, worn: ReadonlySet<WornReading>): number {
  if (readings.length === 0 || readings.some((reading) => worn.has(reading))) return presentMm;
  return presentMm + readings.reduce((sum, reading) => sum + reading.wearMm, 0) / readings.length;
}

type Linear = {
  readonly ground: Ground;
  /** Derivatives of the target's height by its placement, place after place. */
  readonly slopes: Float64Array;
  readonly solve: (cutsMm: Float64Array, rows: WorkingRows, startAt: LinearStep | null) => LinearStep | null;
  readonly changeOf: (step: LinearStep) => readonly number[];
};

type Optimum = { readonly step: LinearStep; readonly rows: WorkingRows };

/** The linear programme's optimum over all places, by way of those that it offends against. */
function optimum(linear: Linear, cutsMm: Float64Array, from: WorkingRows, startAt: LinearStep | null): Optimum | null {
  let rows = from;
  let before = startAt;
  for (;;) {
    const step = linear.solve(cutsMm, rows, before);
    if (step === null) return null;
    const more = rows.joinedBy(changedCuts(linear, cutsMm, step), step.deepestMm);
    if (more === null) return { step, rows };
    rows = more;
    before = step;
  }
}

function changedCuts({ slopes, changeOf }: Linear, cutsMm: Float64Array, step: LinearStep): Float64Array {
  const change = changeOf(step);
  return cutsMm.map((mm, i) => {
    let risenMm = 0;
    for (let j = 0; j < change.length; j += 1) risenMm += slopes[i * change.length + j] * change[j];
    return mm - risenMm;
  });
}

function slopesOf({ count, xMm, yMm }: Ground, gradientAt: ReturnType<typeof targetGradient>): Float64Array {
  const slopes = new Float64Array(count * placementNames.length);
  for (let i = 0; i < count; i += 1) gradientAt({ xMm: xMm[i], yMm: yMm[i] }, slopes, i * placementNames.length);
  return slopes;
}

function rowSlopes(slopes: Float64Array, { rows }: WorkingRows): Float64Array {
  const size = placementNames.length;
  const picked = new Float64Array(rows.length * size);
  rows.forEach(({ place }, k) => {
    picked.set(slopes.subarray(place * size, (place + 1) * size), k * size);
  });
  return picked;
}

/**
 * Draws errors of the places' heights: of a reading its own noise, of a place carried to the edge the surface's error there.
 *
 * Set-ups brought to one frame err together with the surface, by a twist that nothing ties, say; the target is placed against that
 * surface, so what counts is how they err against its height, pitch and crown.
 */
function noiseOn(places: readonly PresentPlace[], surface: UnwornSurface, random: SeededRandom): () => Float64Array {
  const { joined } = surface;
  const covariance = joined ? joined.covariance : surface.covariance;
  const size = Math.sqrt(covariance.length);
  const spread = lowerRoot(covariance, size);
  const rows = places.map((place) => (joined ? joinedRow(place, surface, joined.setUps) : edgeRow(place, surface)));
  return () => {
    const fresh = Array.from({ length: size }, () => random.normal());
    const errors = fresh.map((_, i) => fresh.reduce((sum, z, j) => sum + spread[i * size + j] * z, 0));
    return Float64Array.from(places, ({ uncertaintyMm, readings }, i) => {
      const own = readings.length === 0 ? 0 : uncertaintyMm * random.normal();
      return rows[i].reduce((sum, slope, j) => sum + slope * errors[j], own);
    });
  };
}

function edgeRow({ xMm, yMm, readings }: PresentPlace, surface: UnwornSurface): Float64Array {
  return readings.length === 0 ? heightGradient(surface, xMm, yMm) : nothing;
}

const nothing = new Float64Array(0);

/** The first four numbers of a shape say where it lies: height, pitch and crown. */
const placing = 4;

function joinedRow({ xMm, yMm, readings }: PresentPlace, surface: UnwornSurface, setUps: SetUps): Float64Array {
  const gradient = heightGradient(surface, xMm, yMm);
  const row = new Float64Array(gradient.length + setUps.unknowns);
  if (readings.length === 0) {
    row.set(gradient.subarray(placing, parameterNames.length), placing);
    row.set(gradient.subarray(parameterNames.length), parameterNames.length + setUps.unknowns);
    return row;
  }
  writeSetUp(setUps, readings[0].setup, xMm, yMm, row, parameterNames.length);
  row.set(gradient.subarray(0, placing));
  return row.map((slope) => -slope);
}

/** Lower triangle L with L·Lᵀ the covariance; a parameter without variance has none here either. */
function lowerRoot(covariance: Float64Array, size: number): Float64Array {
  const lower = new Float64Array(size * size);
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      let sum = covariance[i * size + j];
      for (let k = 0; k < j; k += 1) sum -= lower[i * size + k] * lower[j * size + k];
      if (i === j) lower[i * size + i] = Math.sqrt(Math.max(0, sum));
      else lower[i * size + j] = lower[j * size + j] > 0 ? sum / lower[j * size + j] : 0;
    }
  }
  return lower;
}
