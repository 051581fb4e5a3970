/**
 * The oracle: the ideal surface fitted by ordinary least squares to those readings that are truly unworn, and to no others.
 *
 * No estimator can do better than one that is told which readings are worn; every surface is measured against it. It is also told where the tip touches. Like
 * the tool it holds the place of the deepest hollow softly to 0.5 ± 0.06 of the length. Shares no code with the tool.
 *
 * In: a made board and its recipe. Out: height of the surface anywhere, mm; null where the unworn readings are too few to
 * settle it (two more than it has numbers, at least), or the steps don't come to rest.
 */
import { Matrix, QrDecomposition } from "ml-matrix";
import type { MadeBoard } from "../../../data/make/board.ts";
import type { Recipe } from "../../../data/make/recipe.ts";
import type { HeightAt } from "../../../data/make/shape.ts";
import { at, familyHeightMm, type Parameters, type Ridge, type Spot } from "../../support/referenceSurface.ts";
import { scatterMm } from "./benchBoard.ts";
import { unwornBelowMm } from "./benchWear.ts";

export type SpotRead = Spot & { readonly heightMm: number; readonly isUnworn: boolean };

/** Every reading where the ball truly touched: what a tool would work with whose compensation were perfect. */
export function spotsRead({ truth }: MadeBoard): SpotRead[] {
  return truth.readings.map((reading) => ({
    xMm: reading.touchXMm,
    yMm: reading.touchYMm,
    heightMm: reading.presentMm + reading.readMm - reading.exactMm,
    isUnworn: reading.shownMm < unwornBelowMm,
  }));
}

const deepestSetting = 0.5;
const deepestSpread = 0.06;

export function oracleSurface(made: MadeBoard, recipe: Recipe): HeightAt | null {
  const { plan, shape } = recipe;
  const ridge: Ridge = shape.facet && { nutMm: shape.facet.ridgeNutMm, endMm: shape.facet.ridgeEndMm };
  const unworn = spotsRead(made).filter(({ isUnworn }) => isUnworn);
  const free = ridge === null ? at.slopeNut : at.slopeEnd + 1;
  if (unworn.length < free + 2) return null;
  const fits = (p: Parameters) => (spot: Spot) => familyHeightMm(plan, ridge, p, spot.xMm, spot.yMm);
  const softness = scatterMm(recipe) / deepestSpread;
  let p = startOf(recipe);
  for (let turn = 0; turn < 20; turn++) {
    const design = Matrix.zeros(unworn.length + 1, free);
    for (let j = 0; j < free; j++) {
      const stepOfJ = (by: number) => p.map((value, k) => (k === j ? value + by * scale[j]! : value));
      const [up, down] = [fits(stepOfJ(1e-4)), fits(stepOfJ(-1e-4))];
      unworn.forEach((spot, i) => {
        design.set(i, j, (up(spot) - down(spot)) / 2e-4);
      });
    }
    design.set(unworn.length, at.deepest, softness * scale[at.deepest]!);
    const height = fits(p);
    const off = [...unworn.map((spot) => spot.heightMm - height(spot)), softness * (deepestSetting - p[at.deepest]!)];
    const qr = new QrDecomposition(design);
    if (!qr.isFullRank()) return null;
    const step = qr.solve(Matrix.columnVector(off)).to1DArray();
    p = p.map((value, j) => value + (step[j] ?? 0) * scale[j]!);
    if (Math.max(...step.map(Math.abs)) > 1e-7) continue;
    const settled = fits(p);
    return (xMm, yMm) => settled({ xMm, yMm });
  }
  return null;
}

/** What one unit of change of each parameter means, so that the columns are of one size. */
const scale = [1, 1e-3, 1, 1, 10, 10, 10, 1, 1, 0.1, 0.1, 0.1];

function startOf({ shape }: Recipe): Parameters {
  const { facet } = shape;
  const middleMm = (shape.radiusNutMm + shape.radiusEndMm) / 2;
  const hollows = [shape.hollowLowestMm, shape.hollowHighestMm];
  const slopes = facet === null ? [0, 0] : [facet.slopeNut, facet.slopeEnd];
  return [
    shape.heightMm,
    shape.pitch,
    0,
    0,
    shape.radiusNutMm,
    middleMm,
    shape.radiusEndMm,
    ...hollows,
    0.5,
    ...slopes,
  ];
}
