/**
 * The unworn surface and the target, rebuilt from nothing but what an examination publishes. Lengths in mm.
 */
import { halfWidthMm } from "../../data/make/plan.ts";
import type { Plan, Recipe } from "../../data/make/recipe.ts";
import type { Examination, Planing } from "../../server/core/examination.ts";
import { known } from "./known.ts";
import { type Bounds, referenceCut } from "./referenceCut.ts";
import { at, familyHeightMm, nearestInFamily, type Parameters, withHollows } from "./referenceSurface.ts";

/** The unworn surface, rebuilt from the published points. */
export function publishedSurface(plan: Plan, { points, surface, instrument }: Examination): Parameters {
  const radii = surface.camberRadiusMm;
  const hollows = [instrument.hollowLowestMm.value, instrument.hollowHighestMm.value];
  const start = [
    points[0]!.unwornMm,
    0,
    0,
    0,
    known(radii.nut).value,
    known(radii.middle).value,
    known(radii.end).value,
    ...hollows,
    0.5,
    0,
    0,
  ];
  const heights = points.map((point) => point.unwornMm);
  return nearestInFamily(plan, null, points, heights, start).parameters;
}

/** The target, rebuilt from its published figures on that surface. */
export function publishedTarget(plan: Plan, surface: Parameters, { target }: Planing, deepestAt: number): Parameters {
  const moved = [
    surface[at.height]! + target.heightMm,
    surface[at.pitch]! + target.pitch,
    surface[at.crownNut]! + target.crownMm.nut,
    surface[at.crownEnd]! + target.crownMm.end,
    target.radiusMm.nut,
    target.radiusMm.middle,
    target.radiusMm.end,
    target.hollowMm.lowest,
    target.hollowMm.highest,
    deepestAt,
    surface[at.slopeNut]!,
    surface[at.slopeEnd]!,
  ];
  return withHollows(plan, null, moved, target.hollowMm.lowest, target.hollowMm.highest);
}

export function cutsOffMm(plan: Plan, { points }: Examination, target: Parameters): number {
  return Math.max(
    ...points.map((point) =>
      Math.abs(point.heightMm - familyHeightMm(plan, null, target, point.xMm, point.yMm) - (point.cutMm ?? Number.NaN)),
    ),
  );
}

/** The optimum on the published heights by another solver. No place is read twice on these boards. */
export function optimumOfReadings(
  recipe: Recipe,
  { points }: Examination,
  surface: Parameters,
  bounds: Bounds,
): number {
  const { plan } = recipe;
  const readings = points.map(({ xMm, yMm, heightMm }) => ({ xMm, yMm, presentMm: heightMm, counts: true }));
  const edges = recipe.rounds.crosslinesMm.flatMap((xMm) =>
    [-1, 1].map((side) => {
      const yMm = side * halfWidthMm(plan, xMm);
      return { xMm, yMm, presentMm: familyHeightMm(plan, null, surface, xMm, yMm), counts: true };
    }),
  );
  return referenceCut(plan, null, surface, [...readings, ...edges], bounds).deepestMm;
}
