/**
 * The target: the ideal shape the plane works towards, placed on the board.
 *
 * A placement says where the target lies against the unworn surface (height, pitch, crown shifts) and what it is like
 * (radii, and hollows as a straightedge shows them under the outer strings). A straightedge on a cambered board
 * also meets the camber, since strings fan out; so the shape's hollow coefficients are solved such that the laid
 * straightedge shows what is asked. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import { parameterNames, type SurfacePlan, type SurfaceShape, writeHeightGradient } from "../surface/idealSurface.ts";
import { hollowOfShape } from "../surface/straightedge.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";
import type { Place } from "../units.ts";

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

/** How far each may go: an absolute range, both ends included. */
export type PlacementBounds = { readonly [name in PlacementName]: readonly [number, number] };

export function withinBounds(placement: Placement, bounds: PlacementBounds): Placement {
  return Object.fromEntries(
    placementNames.map((name) => [name, Math.min(Math.max(placement[name], bounds[name][0]), bounds[name][1])]),
  ) as Placement;
}

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
  const lowestYMm = pathYMm(plan, "lowest");
  const highestYMm = pathYMm(plan, "highest");
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
  for (let round = 0; round < 12; round += 1) {
    const missingLowest = placement.hollowLowestMm - hollowOfShape(plan, shape, lowestYMm).hollowMm;
    const missingHighest = placement.hollowHighestMm - hollowOfShape(plan, shape, highestYMm).hollowMm;
    shape = {
      ...shape,
      hollowLowestMm: shape.hollowLowestMm + missingLowest,
      hollowHighestMm: shape.hollowHighestMm + missingHighest,
    };
    if (Math.abs(missingLowest) + Math.abs(missingHighest) < 1e-9) break;
  }
  return shape;
}

/** How the two hollow coefficients of a placed target answer to its placement, in the order of placementNames. */
type HollowAnswers = { readonly lowest: Float64Array; readonly highest: Float64Array };

/**
 * A straightedge rests on the ends of a concave target, so the hollow it shows answers to a parameter as the height of the
 * line between the ends does, less the height of the target at the deepest place. The coefficients answer such that the
 * shown hollows come out as placed.
 */
function hollowAnswers(frame: TargetFrame, shape: SurfaceShape): HollowAnswers {
  return {
    lowest: coefficientAnswers(shownAnswers(frame, shape, "lowest"), "hollowLowestMm"),
    highest: coefficientAnswers(shownAnswers(frame, shape, "highest"), "hollowHighestMm"),
  };
}

/** On its own path an outer string's hollow has nothing of the other's, so each coefficient answers to its own alone. */
function coefficientAnswers(shown: Float64Array, own: "hollowLowestMm" | "hollowHighestMm"): Float64Array {
  const byCoefficient = shown[placementNames.indexOf(own)];
  return Float64Array.from(placementNames, (name, j) => {
    if (name === "hollowLowestMm" || name === "hollowHighestMm") return name === own ? 1 / byCoefficient : 0;
    return -shown[j] / byCoefficient;
  });
}

/** Writes the derivatives of a target's height at a place, by its placement, into `gradient` from `offset`. */
type TargetGradient = (place: Place, gradient: Float64Array, offset: number) => void;

export function targetGradient(frame: TargetFrame, shape: SurfaceShape): TargetGradient {
  const { lowest, highest } = hollowAnswers(frame, shape);
  const lowestColumn = parameterNames.indexOf("hollowLowestMm");
  const highestColumn = parameterNames.indexOf("hollowHighestMm");
  const byShape = shapeGradient();
  return (place, gradient, offset) => {
    writeHeightGradient(frame.unworn.plan, shape, place.xMm, place.yMm, byShape);
    for (let j = 0; j < placementNames.length; j += 1) {
      const direct = j < lowestColumn ? byShape[j] : 0;
      gradient[offset + j] = direct + byShape[lowestColumn] * lowest[j] + byShape[highestColumn] * highest[j];
    }
  };
}

function shapeGradient(): Float64Array {
  return new Float64Array(parameterNames.length);
}

/** Derivatives of the hollow shown under an outer string by the shape's parameters. */
function shownAnswers(frame: TargetFrame, shape: SurfaceShape, string: "lowest" | "highest"): Float64Array {
  const { plan } = frame.unworn;
  const yMm = pathYMm(plan, string);
  const { atMm } = hollowOfShape(plan, shape, yMm);
  const [atNut, atEnd, atDeepest] = [0, plan.lengthMm, atMm].map((xMm) => {
    const gradient = shapeGradient();
    writeHeightGradient(plan, shape, xMm, yMm(xMm), gradient);
    return gradient;
  });
  const u = atMm / plan.lengthMm;
  return atDeepest.map((deepest, j) => atNut[j] * (1 - u) + atEnd[j] * u - deepest);
}

function pathYMm(plan: SurfacePlan, string: "lowest" | "highest"): (xMm: number) => number {
  const { nutMm, endMm } = plan[string];
  return (xMm) => nutMm + ((endMm - nutMm) * xMm) / plan.lengthMm;
}
