/**
 * The ideal surface of a fingerboard: cambered across, hollow along.
 *
 *   z(x, y) = height + pitch·x + camber(y − crown(x); R(x)) − hollow(x, y)
 *
 *   crown   (R(x) + hollow)·roll(x), roll linear from nut to end: on an arc a roll is a shift of the crown, and since a board twists
 *           evenly and is rolled hollow and all, the crown runs on a line only where neither radius nor hollow is in its way
 *   R       quadratic through nut, middle and end (all equal: a cylinder; on a line: a cone)
 *   hollow  h·H(x/L), h linear across from the lowest string's path to the highest's
 *   H       0 at both ends, 1 at its deepest point u0, concave for every u0:
 *           H(u) = u(1 − u) / (u0² + (1 − 2·u0)·u), a parabola at u0 = 0.5
 *   facet   (optional) beyond a ridge on the bass side the arc gives way to a straight line whose slope is linear in x
 *
 * Lengths in mm, in the frame of units.ts. Pure geometry: knows no readings.
 */
import type { Instrument } from "../board/instrument.ts";
import { stringYMm } from "../board/stringPaths.ts";

/** The shape's parameters, in the order of every vector, gradient and covariance of a surface. */
export const parameterNames = [
  "heightMm",
  "pitch",
  "crownNutMm",
  "crownEndMm",
  "radiusNutMm",
  "radiusMiddleMm",
  "radiusEndMm",
  "hollowLowestMm",
  "hollowHighestMm",
  "hollowDeepest",
  "facetSlopeNut",
  "facetSlopeEnd",
] as const;

export type ParameterName = (typeof parameterNames)[number];

/**
 * A shape: `heightMm` of the crown at x = 0; `pitch` in mm per mm; `hollowLowestMm` and `hollowHighestMm` are the
 * coefficients h on the outer strings' paths (what a straightedge shows also holds the camber: see straightedge.ts);
 * `hollowDeepest` is u0, a fraction of the length; facet slopes are dz/dy, zero and unused without a facet.
 */
export type SurfaceShape = { readonly [name in ParameterName]: number };

/** A straight line in plan, by its y at the nut and at the board's end, mm. */
type LineInPlan = { readonly nutMm: number; readonly endMm: number };

/** What the surface needs to know of the board's plan. */
export type SurfacePlan = {
  readonly lengthMm: number;
  readonly lowest: LineInPlan;
  readonly highest: LineInPlan;
  readonly ridge: LineInPlan | null;
};

export function surfacePlan(instrument: Instrument): SurfacePlan {
  const lengthMm = instrument.boardLengthMm.value;
  const path = (index: number): LineInPlan => ({
    nutMm: stringYMm(instrument, index, 0),
    endMm: stringYMm(instrument, index, lengthMm),
  });
  return {
    lengthMm,
    lowest: path(0),
    highest: path(instrument.strings.length - 1),
    ridge: instrument.facet && {
      nutMm: instrument.facet.ridgeNutMm.value,
      endMm: instrument.facet.ridgeEndMm.value,
    },
  };
}

/** Height of an arc of radius R against its crown, at a distance across: √(R² − t²) − R. Zero or negative. */
export function camberMm(acrossMm: number, radiusMm: number): number {
  return arcDropRootMm(acrossMm, radiusMm) - radiusMm;
}

/** H(u): share of the full hollow at the fraction u of the length, deepest (1) at `deepest`. */
export function hollowShare(u: number, deepest: number): number {
  return (u * (1 - u)) / (deepest * deepest + (1 - 2 * deepest) * u);
}

/** Height of the surface, mm. */
export function heightMm(plan: SurfacePlan, shape: SurfaceShape, xMm: number, yMm: number): number {
  const u = xMm / plan.lengthMm;
  const arcYMm = yOnArcMm(plan, u, yMm);
  const radius = radiusAtMm(shape, u);
  const share = shareAcross(plan, u, yMm);
  const fullHollowMm = shape.hollowLowestMm * (1 - share) + shape.hollowHighestMm * share;
  const hollowMm = fullHollowMm * hollowShare(u, shape.hollowDeepest);
  const across = arcYMm - (radius + hollowMm) * rollAt(shape, u);
  const facetMm = (yMm - arcYMm) * between(shape.facetSlopeNut, shape.facetSlopeEnd, u);
  return shape.heightMm + shape.pitch * xMm + camberMm(across, radius) + facetMm - hollowMm;
}

/** Derivatives of the height by each parameter, in the order of parameterNames, written into `gradient` from `offset`. */
export function writeHeightGradient(
  plan: SurfacePlan,
  shape: SurfaceShape,
  xMm: number,
  yMm: number,
  gradient: Float64Array,
  offset = 0,
): void {
  const u = xMm / plan.lengthMm;
  const arcYMm = yOnArcMm(plan, u, yMm);
  const radius = radiusAtMm(shape, u);
  const roll = rollAt(shape, u);
  const share = shareAcross(plan, u, yMm);
  const deepest = shape.hollowDeepest;
  const hollow = hollowShare(u, deepest);
  const denominator = deepest * deepest + (1 - 2 * deepest) * u;
  const fullHollowMm = shape.hollowLowestMm * (1 - share) + shape.hollowHighestMm * share;
  const rolledMm = radius + fullHollowMm * hollow;
  const across = arcYMm - rolledMm * roll;
  const root = arcDropRootMm(across, radius);
  const byCrown = across / root;
  const byRadius = radius / root - 1 + byCrown * roll;
  const byHollow = byCrown * roll - 1;
  const byRollNut = byCrown * rolledMm * (1 - u);
  const byRollEnd = byCrown * rolledMm * u;
  gradient[offset] = 1;
  gradient[offset + 1] = xMm;
  gradient[offset + 2] = byRollNut / shape.radiusNutMm;
  gradient[offset + 3] = byRollEnd / shape.radiusEndMm;
  gradient[offset + 4] = byRadius * (2 * u - 1) * (u - 1) - (byRollNut * shape.crownNutMm) / shape.radiusNutMm ** 2;
  gradient[offset + 5] = byRadius * 4 * u * (1 - u);
  gradient[offset + 6] = byRadius * u * (2 * u - 1) - (byRollEnd * shape.crownEndMm) / shape.radiusEndMm ** 2;
  gradient[offset + 7] = byHollow * (1 - share) * hollow;
  gradient[offset + 8] = byHollow * share * hollow;
  gradient[offset + 9] = (byHollow * fullHollowMm * 2 * u * (1 - u) * (u - deepest)) / (denominator * denominator);
  gradient[offset + 10] = (yMm - arcYMm) * (1 - u);
  gradient[offset + 11] = (yMm - arcYMm) * u;
}

/** Slopes ∂z/∂x and ∂z/∂y of the surface, mm per mm, by central differences over a hundredth of a millimetre. */
export function slopes(
  plan: SurfacePlan,
  shape: SurfaceShape,
  xMm: number,
  yMm: number,
): { readonly alongX: number; readonly alongY: number } {
  const step = 0.01;
  const ahead = heightMm(plan, shape, xMm + step, yMm);
  const behind = heightMm(plan, shape, xMm - step, yMm);
  const treble = heightMm(plan, shape, xMm, yMm + step);
  const bass = heightMm(plan, shape, xMm, yMm - step);
  return { alongX: (ahead - behind) / (2 * step), alongY: (treble - bass) / (2 * step) };
}

/** Radius of the camber at the fraction u of the length, mm. */
export function radiusAtMm(shape: SurfaceShape, u: number): number {
  return (
    shape.radiusNutMm * (2 * u - 1) * (u - 1) +
    shape.radiusMiddleMm * 4 * u * (1 - u) +
    shape.radiusEndMm * u * (2 * u - 1)
  );
}

/** Angle by which the section is rolled at the fraction u of the length, as its tangent: crown over radius, linear along. */
function rollAt(shape: SurfaceShape, u: number): number {
  return between(shape.crownNutMm / shape.radiusNutMm, shape.crownEndMm / shape.radiusEndMm, u);
}

/**
 * How much the treble side rises against the bass side from nut to bridge end, mm over the end's width:
 * the difference of the section's tilt, crown / R, at the two ends.
 */
export function twistMm(shape: SurfaceShape, widthEndMm: number): number {
  return widthEndMm * (shape.crownEndMm / shape.radiusEndMm - shape.crownNutMm / shape.radiusNutMm);
}

/** √(R² − t²), kept real where a wild trial radius is smaller than the distance across. */
function arcDropRootMm(acrossMm: number, radiusMm: number): number {
  return Math.sqrt(Math.max(radiusMm * radiusMm - acrossMm * acrossMm, 1e-3 * radiusMm * radiusMm));
}

/** The y at which the arc is still followed: the place itself, or the ridge for a place on the facet. */
function yOnArcMm(plan: SurfacePlan, u: number, yMm: number): number {
  return plan.ridge ? Math.max(yMm, between(plan.ridge.nutMm, plan.ridge.endMm, u)) : yMm;
}

/** 0 on the lowest string's path, 1 on the highest's, linear across (and on beyond them). */
function shareAcross(plan: SurfacePlan, u: number, yMm: number): number {
  const lowest = between(plan.lowest.nutMm, plan.lowest.endMm, u);
  const highest = between(plan.highest.nutMm, plan.highest.endMm, u);
  return (yMm - lowest) / (highest - lowest);
}

function between(atNut: number, atEnd: number, u: number): number {
  return atNut + (atEnd - atNut) * u;
}
