/**
 * An estimator of the unworn surface, for comparison on the same boards: bench only.
 *
 * In: the plan, places with heights as if the tip were perfectly compensated, the gauge's least noise. Out: a shape, or null
 * where the readings don't determine one. Lengths in mm; a residual is reading less surface.
 */
import { heightMm, type SurfacePlan, type SurfaceShape } from "../../../server/core/surface/idealSurface.ts";

export type SpotToFit = { readonly xMm: number; readonly yMm: number; readonly heightMm: number };

export type Task = {
  readonly plan: SurfacePlan;
  readonly spots: readonly SpotToFit[];
  /** What rounding alone leaves: the noise is not taken to be less. */
  readonly floorMm: number;
};

export type Estimator = (task: Task) => SurfaceShape | null;

export function residualsMm({ plan, spots }: Task, shape: SurfaceShape): Float64Array {
  return Float64Array.from(spots, (spot) => spot.heightMm - heightMm(plan, shape, spot.xMm, spot.yMm));
}

/** A round arc and no hollow, laid through the mean height. */
export function plainStart({ plan, spots }: Task): SurfaceShape {
  const radiusMm = 2 * (plan.highest.endMm - plan.lowest.endMm);
  return {
    heightMm: spots.reduce((sum, spot) => sum + spot.heightMm, 0) / spots.length,
    pitch: 0,
    crownNutMm: 0,
    crownEndMm: 0,
    radiusNutMm: radiusMm,
    radiusMiddleMm: radiusMm,
    radiusEndMm: radiusMm,
    hollowLowestMm: 0,
    hollowHighestMm: 0,
    hollowDeepest: 0.5,
    facetSlopeNut: 0,
    facetSlopeEnd: 0,
  };
}
