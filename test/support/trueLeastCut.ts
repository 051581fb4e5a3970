/**
 * The truth of a cut: the least-cut programme on heights without noise, by the reference solver. Lengths in mm.
 */
import type { MadeBoard } from "../../data/make/board.ts";
import { halfWidthMm } from "../../data/make/plan.ts";
import type { Recipe } from "../../data/make/recipe.ts";
import { type Bounds, type PresentSpot, referenceCut } from "./referenceCut.ts";
import { familyHeightMm, nearestInFamily, type Parameters } from "./referenceSurface.ts";
import { aims, allowanceMm, crownBoundMm, edgePlacesMm, type Kind, projectionBoundMm } from "./syntheticBoards.ts";

/** What the settings let the target do; the bands are the tolerances, unless they are set. */
export function boundsFor(kind: Kind): Bounds {
  const { plan, radiusMm, radiusTolMm, lowestMm, highestMm, hollowTolMm } = aims[kind];
  return {
    pitch: projectionBoundMm / plan.stringLengthMm,
    crownMm: crownBoundMm,
    radiiMm: [radiusMm, radiusMm, radiusMm],
    radiusBandMm: radiusTolMm,
    hollowsMm: [lowestMm, highestMm],
    hollowBandMm: hollowTolMm,
    allowanceMm,
    deepestAt: 0.5,
  };
}

export type TrueLeast = { readonly deepestMm: number; readonly edgeMm: number; readonly sparedEdgeMm: () => number };

/**
 * The same programme on heights without noise, and the deepest cut at the edges where thickness is read: on that plan, and
 * on the plan that spares those edges most.
 */
export function trueLeastCut(recipe: Recipe, made: MadeBoard, bounds: Bounds): TrueLeast {
  const { plan } = recipe;
  const readings = made.truth.readings.map((reading) => ({
    xMm: reading.touchXMm,
    yMm: reading.touchYMm,
    presentMm: reading.presentMm,
    counts: true,
  }));
  const edge = (xMm: number, side: 1 | -1): PresentSpot => {
    const yMm = side * halfWidthMm(plan, xMm);
    return { xMm, yMm, presentMm: made.unwornHeightMm(xMm, yMm), counts: true };
  };
  const edgesAt = (places: readonly number[]): PresentSpot[] => places.flatMap((xMm) => [edge(xMm, -1), edge(xMm, 1)]);
  const unworn = nearestInFamily(
    plan,
    null,
    readings,
    made.truth.readings.map((reading) => reading.unwornMm),
    startFor(recipe),
  ).parameters;
  const present = [...readings, ...edgesAt(recipe.rounds.crosslinesMm)];
  const calliper = edgesAt(edgePlacesMm(plan.lengthMm));
  const least = referenceCut(plan, null, unworn, present, bounds);
  const uncounted = present.map((spot) => ({ ...spot, counts: false }));
  const deepestAtCalliper = (target: Parameters): number =>
    Math.max(...calliper.map(({ xMm, yMm, presentMm }) => presentMm - familyHeightMm(plan, null, target, xMm, yMm)));
  return {
    deepestMm: least.deepestMm,
    edgeMm: deepestAtCalliper(least.target),
    sparedEdgeMm: () => deepestAtCalliper(referenceCut(plan, null, unworn, [...uncounted, ...calliper], bounds).target),
  };
}

function startFor({ shape }: Recipe): Parameters {
  const middleMm = (shape.radiusNutMm + shape.radiusEndMm) / 2;
  const hollows = [shape.hollowLowestMm, shape.hollowHighestMm];
  return [shape.heightMm, shape.pitch, 0, 0, shape.radiusNutMm, middleMm, shape.radiusEndMm, ...hollows, 0.5, 0, 0];
}
