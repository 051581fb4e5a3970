/**
 * The estimators compared, by name, and one of them on a made board. The tool's own goes through the whole tool (toolRun.ts).
 *
 * In: a made board and its recipe. Out: height of the surface anywhere, mm; null where not determined.
 */
import type { MadeBoard } from "../../../data/make/board.ts";
import { stringYMm } from "../../../data/make/plan.ts";
import type { Recipe } from "../../../data/make/recipe.ts";
import type { HeightAt } from "../../../data/make/shape.ts";
import { heightMm, type SurfacePlan } from "../../../server/core/surface/idealSurface.ts";
import { asymmetric } from "../estimators/asymmetric.ts";
import type { Estimator } from "../estimators/estimator.ts";
import { mixtureAlone } from "../estimators/mixtureAlone.ts";
import { mixtureShallow, mixtureTogether } from "../estimators/mixtureTogether.ts";
import { ordinary } from "../estimators/ordinary.ts";
import { spotsRead } from "./oracle.ts";

export const estimators: Readonly<Record<string, Estimator>> = {
  "(a) asymmetric": asymmetric,
  "(b) mixture alone": mixtureAlone,
  "(c) mixture together": mixtureTogether,
  "(e) ordinary": ordinary,
  "(f) together, shallow": mixtureShallow,
};

export function fittedSurface(estimator: Estimator, made: MadeBoard, recipe: Recipe): HeightAt | null {
  const plan = planOf(recipe);
  const floorMm = recipe.probe.resolutionMm / Math.sqrt(12);
  const shape = estimator({ plan, spots: spotsRead(made), floorMm });
  return shape && ((xMm, yMm) => heightMm(plan, shape, xMm, yMm));
}

function planOf({ plan, shape }: Recipe): SurfacePlan {
  const path = (string: string) => ({
    nutMm: stringYMm(plan, string, 0),
    endMm: stringYMm(plan, string, plan.lengthMm),
  });
  return {
    lengthMm: plan.lengthMm,
    lowest: path(plan.strings[0]!),
    highest: path(plan.strings.at(-1)!),
    ridge: shape.facet && { nutMm: shape.facet.ridgeNutMm, endMm: shape.facet.ridgeEndMm },
  };
}
