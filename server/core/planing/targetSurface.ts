/**
 * The target: the ideal shape the plane works towards, placed on the board.
 *
 * A placement says where the target lies against the unworn surface (height, pitch, crown shifts) and what it is like
 * (radii, and hollows as a straightedge shows them under the outer strings). A straightedge on a cambered board
 * also meets the camber, since strings fan out; so the shape's hollow coefficients are solved such that the laid
 * straightedge shows what is asked. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import type { SurfaceShape } from "../surface/idealSurface.ts";
import { hollowOfShape } from "../surface/straightedge.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";

/** What may be chosen about a target, in the order of every vector of the programme. */
export const placementNames = [
  "heightMm",
  "pitch",
  "crownNutMm",
  "crownEndMm",
  "radiusNutMm",
  "radiusMiddleMm",
  "radiusEndMm",
  "hollowLowestMm",
  "hollowHighestMm",
] as const;

export type PlacementName = (typeof placementNames)[number];

/** `heightMm`, `pitch`, `crown…` relative to the unworn surface; radii and hollows (as a straightedge shows) absolute. */
export type Placement = { readonly [name in PlacementName]: number };

/** What a target keeps whatever its placement: the board it lies on, u0 of its hollow, its facet's slopes. */
export type TargetFrame = {
  readonly unworn: UnwornSurface;
  readonly hollowDeepest: number;
  readonly facetSlopeNut: number;
  readonly facetSlopeEnd: number;
};

export function workshopFrame(unworn: UnwornSurface, instrument: Instrument): TargetFrame {
  return {
    unworn,
    hollowDeepest: instrument.hollowDeepest.value,
    facetSlopeNut: instrument.facet?.slopeNut?.value ?? unworn.shape.facetSlopeNut,
    facetSlopeEnd: instrument.facet?.slopeEnd?.value ?? unworn.shape.facetSlopeEnd,
  };
}

/** The board's own shape renewed keeps its own deepest point and facet. */
export function ownFrame(unworn: UnwornSurface): TargetFrame {
  const { hollowDeepest, facetSlopeNut, facetSlopeEnd } = unworn.shape;
  return { unworn, hollowDeepest, facetSlopeNut, facetSlopeEnd };
}

/** The shape of a placed target. Newton's method on the two hollow coefficients; the sensitivities are all but 1. */
export function targetShape(frame: TargetFrame, placement: Placement): SurfaceShape {
  const { plan, shape: unworn } = frame.unworn;
  let shape: SurfaceShape = {
    heightMm: unworn.heightMm + placement.heightMm,
    pitch: unworn.pitch + placement.pitch,
    crownNutMm: unworn.crownNutMm + placement.crownNutMm,
    crownEndMm: unworn.crownEndMm + placement.crownEndMm,
    radiusNutMm: placement.radiusNutMm,
    radiusMiddleMm: placement.radiusMiddleMm,
    radiusEndMm: placement.radiusEndMm,
    hollowLowestMm: placement.hollowLowestMm,
    hollowHighestMm: placement.hollowHighestMm,
    hollowDeepest: frame.hollowDeepest,
    facetSlopeNut: frame.facetSlopeNut,
    facetSlopeEnd: frame.facetSlopeEnd,
  };
  const path = (line: { nutMm: number; endMm: number }) => (xMm: number) =>
    line.nutMm + ((line.endMm - line.nutMm) * xMm) / plan.lengthMm;
  for (let round = 0; round < 12; round += 1) {
    const missingLowest = placement.hollowLowestMm - hollowOfShape(plan, shape, path(plan.lowest)).hollowMm;
    const missingHighest = placement.hollowHighestMm - hollowOfShape(plan, shape, path(plan.highest)).hollowMm;
    shape = {
      ...shape,
      hollowLowestMm: shape.hollowLowestMm + missingLowest,
      hollowHighestMm: shape.hollowHighestMm + missingHighest,
    };
    if (Math.abs(missingLowest) + Math.abs(missingHighest) < 1e-9) break;
  }
  return shape;
}
