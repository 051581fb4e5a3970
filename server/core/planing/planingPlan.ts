/**
 * The planing plan: the target the plane works towards.
 *
 * First the plan with the smallest deepest cut. Where that would leave a measured place thinner than its limit and the
 * uncertainty, a plan is sought that keeps every one of them above, again with the smallest deepest cut; failing that,
 * the plan that leaves the thinnest place thickest. So a board is called too thin only when no target within the
 * tolerances would keep it.
 *
 * in: present places, the choice of targets, places of known thickness -> out: the plan (mm), or null where there is none.
 */
import { heightMm } from "../surface/idealSurface.ts";
import type { Place } from "../units.ts";
import type { WornReading } from "../wear/wearAtReadings.ts";
import type { PresentPlace } from "./cutPlaces.ts";
import type { CutPlace } from "./ground.ts";
import { type LeastCut, type LeastCutTask, leastCut, smallestDeepestCut } from "./leastCut.ts";
import type { SecondAim } from "./settledCut.ts";
import type { TargetChoice } from "./targetChoice.ts";
import type { Placement } from "./targetSurface.ts";

/** A place whose thickness is known: what may be cut there, before − limit. */
export type SparePlace = Place & { readonly presentMm: number; readonly spareMm: number; readonly isEdge: boolean };

export type PlanTask = {
  readonly choice: TargetChoice;
  readonly places: readonly PresentPlace[];
  /** Beyond the readings: the plane cuts there too, but `leastDeepestMm` does not speak of them. */
  readonly outlinePlaces: readonly PresentPlace[];
  readonly sparePlaces: readonly SparePlace[];
  readonly allowanceMm: number;
  /** How much deeper than the least cut a plainer arc may be. */
  readonly plainWithinMm: number;
  /** Expanded uncertainty of the thickness that a plan leaves, mm. */
  readonly spareUMm: number;
  /** What is made small once the deepest cut is. */
  readonly secondAim: SecondAim | null;
};

type Found = Extract<LeastCut, { outcome: "found" }>;

export type CutPlan = Found & {
  readonly spares: "deepest cut" | "thinnest place";
  /** Readings and edges beside the crosslines, then the outline. */
  readonly places: readonly PresentPlace[];
  /** The smallest deepest cut that any target needs at these places, whatever the plan spares. */
  readonly leastDeepestMm: number;
  /** Whether that smallest depth rests on each of the task's places. */
  readonly restsOn: readonly boolean[];
  /** The places of known thickness on which a plan rests that spares the thinnest place. */
  readonly thinPlaces: readonly Place[];
};

type LeastOfAll = Pick<CutPlan, "leastDeepestMm" | "restsOn">;

/** A place bears part of a plan from this share on. */
const restingShare = 1e-6;
/** A cap kept this much clear of, so that rounding does not undo it, mm. */
const hairMm = 1e-4;

/** Null where no target within the bounds lies below the present surface. */
export function planBoard(task: PlanTask): CutPlan | null {
  const read = task.places.map(counted);
  const beyond = [...task.outlinePlaces.map(counted), ...task.sparePlaces.map(held)];
  const least = smallestDeepestCut(toSolve(task, read));
  if (least === null) return null;
  const leastOfAll: LeastOfAll = {
    leastDeepestMm: least.deepestMm,
    restsOn: task.places.map((_, i) => least.depthShares[i] + least.contactShares[i] > restingShare),
  };
  const shallowest = leastCut(toSolve(task, [...read, ...beyond], least.start));
  if (shallowest.outcome === "impossible") return null;
  const shallowestPlan = asPlan(task, shallowest, null, leastOfAll);
  if (leastMarginMm(task, shallowest) >= task.spareUMm) return shallowestPlan;

  const capped = task.sparePlaces.map(
    (place): CutPlace => ({ ...place, spareMm: null, capMm: place.spareMm - task.spareUMm - hairMm }),
  );
  const keeping = leastCut(toSolve(task, [...read, ...beyond, ...capped], shallowest.placement));
  if (keeping.outcome === "found" && leastMarginMm(task, keeping) >= task.spareUMm) {
    const onCap = task.sparePlaces.filter((_, i) => keeping.capShares[read.length + beyond.length + i] > restingShare);
    return asPlan(task, keeping, onCap, leastOfAll);
  }

  const thickest = thickestPlan(task, shallowest.placement);
  const gains = thickest && leastMarginMm(task, thickest) > leastMarginMm(task, shallowest) + 1e-3;
  return gains ? { ...thickest, ...leastOfAll } : shallowestPlan;
}

/** Whether a plan leaves some measured place under its limit, or too close to tell. */
export function leavesTooLittle(task: PlanTask, plan: CutPlan): boolean {
  return leastMarginMm(task, plan) < task.spareUMm;
}

/** What the place with least to spare can keep above its limit beyond the uncertainty, and whether it is an edge. */
export type MostToSpare = { readonly mm: number; readonly isEdge: boolean };

/** Of all plans, the most that can be kept; null where no thickness is known or no target is possible. */
export function mostToSpare(task: PlanTask, plan: CutPlan): MostToSpare | null {
  if (task.sparePlaces.length === 0) return null;
  const thickest = thickestPlan({ ...task, secondAim: null }, plan.placement);
  if (thickest === null) return null;
  const leftMm = (place: SparePlace): number => place.spareMm - cutAtMm(thickest, task, place);
  const least = task.sparePlaces.reduce((one, other) => (leftMm(other) < leftMm(one) ? other : one));
  return { mm: leftMm(least) - task.spareUMm, isEdge: least.isEdge };
}

/** The plan that leaves the thinnest place thickest, however deep it cuts elsewhere: no bound presses on its deepest cut. */
function thickestPlan(task: PlanTask, start: Placement): CutPlan | null {
  const uncounted = [...task.places, ...task.outlinePlaces].map(held);
  const spared = task.sparePlaces.map((place): CutPlace => ({ ...place, capMm: null }));
  const found = leastCut({ ...toSolve(task, [...uncounted, ...spared], start), plainWithinMm: null });
  if (found.outcome === "impossible") return null;
  const thinnest = task.sparePlaces.filter((_, i) => found.depthShares[uncounted.length + i] > restingShare);
  return {
    ...asPlan(task, found, thinnest, { leastDeepestMm: found.deepestMm, restsOn: [] }),
    pressure: new Float64Array(found.pressure.length),
  };
}

/** `thinPlaces`: of a plan that spares the thinnest place; null of one that keeps the deepest cut small. */
function asPlan(
  task: PlanTask,
  found: Found,
  thinPlaces: readonly SparePlace[] | null,
  leastOfAll: LeastOfAll,
): CutPlan {
  const places = [...task.places, ...task.outlinePlaces];
  const cutsMm = found.cutsMm.slice(0, places.length);
  return {
    ...found,
    cutsMm,
    deepestMm: greatest(cutsMm),
    spares: thinPlaces ? "thinnest place" : "deepest cut",
    thinPlaces: thinPlaces ?? [],
    places,
    ...leastOfAll,
  };
}

/** The deepest cut of the same task if some readings were not there (a worn place left or filled). */
export function deepestCutWithoutMm(task: PlanTask, plan: CutPlan, left: ReadonlySet<WornReading>): number | null {
  const kept = task.places.filter((place) => !place.readings.some((reading) => left.has(reading)));
  return smallestDeepestCut(toSolve(task, kept.map(counted), plan.placement))?.deepestMm ?? null;
}

type Standing = Place & { readonly presentMm: number };

/** A place whose cut counts towards the deepest. */
function counted({ xMm, yMm, presentMm }: Standing): CutPlace {
  return { xMm, yMm, presentMm, spareMm: 0, capMm: null };
}

/** A place that only holds the target down. */
function held({ xMm, yMm, presentMm }: Standing): CutPlace {
  return { xMm, yMm, presentMm, spareMm: null, capMm: null };
}

function greatest(numbers: readonly number[]): number {
  return numbers.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
}

/** `start`: the placement of a plan for nearly the same, from where the programme settles sooner. */
function toSolve(task: PlanTask, places: readonly CutPlace[], start?: Placement): LeastCutTask {
  const { frame, bounds } = task.choice;
  return {
    frame,
    start: start ?? task.choice.start,
    bounds,
    places,
    allowanceMm: task.allowanceMm,
    plainWithinMm: task.plainWithinMm,
    secondAim: task.secondAim,
  };
}

/** The least of (before − limit − cut) over the places of known thickness; Infinity without any. */
function leastMarginMm(task: PlanTask, found: Found): number {
  return task.sparePlaces.reduce(
    (least, place) => Math.min(least, place.spareMm - cutAtMm(found, task, place)),
    Number.POSITIVE_INFINITY,
  );
}

function cutAtMm(found: Found, task: PlanTask, place: SparePlace): number {
  return place.presentMm - heightMm(task.choice.frame.unworn.plan, found.shape, place.xMm, place.yMm);
}
