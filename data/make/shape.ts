/**
 * The unworn board as a solid shape: an arc across, hollowed lengthwise, then rolled and twisted as a body.
 *
 * In: plan and shape. Out: height of the unworn surface anywhere on the board, mm, in the gauge's frame.
 *
 * In the board's own frame the crown lies at y = 0. A crossline's section is an arc (or an arc and a flat), lowered by
 * the hollow. The section is then turned about its crown by the roll there: a true rotation, y and z both move. The
 * hollow lengthwise is a parabola leaned towards one end, u(1 − u)(1 + b(u − ½)), concave for a deepest point of 0.45 to
 * 0.55; how much of it is needed is found by laying a straightedge on the finished surface and bisecting. Waves of the hand
 * plane and the bend of a neck come on top.
 */
import { stringYMm } from "./plan.ts";
import type { Plan, Shape } from "./recipe.ts";
import { straightedgeGapMm } from "./straightedge.ts";
import { wavesMm } from "./waves.ts";

export type HeightAt = (xMm: number, yMm: number) => number;

/** Depth of the hollow's curve, in mm, along the path of the lowest and of the highest string. */
type Depths = { readonly lowestMm: number; readonly highestMm: number };

export function unwornSurface(plan: Plan, shape: Shape): HeightAt {
  const straight = { ...shape, bendMm: 0, waves: [] };
  let depths: Depths = { lowestMm: shape.hollowLowestMm, highestMm: shape.hollowHighestMm };
  // The two depths hardly touch each other's string: three rounds leave less than a nanometre.
  for (let round = 0; round < 3; round++) {
    const held = depths;
    const lowestMm = bisect(-2, 8, (tryMm) => {
      const surface = surfaceWith(plan, straight, { ...held, lowestMm: tryMm });
      return hollowUnderStringMm(plan, surface, plan.strings[0]!) - shape.hollowLowestMm;
    });
    const highestMm = bisect(-2, 8, (tryMm) => {
      const surface = surfaceWith(plan, straight, { lowestMm, highestMm: tryMm });
      return hollowUnderStringMm(plan, surface, plan.strings.at(-1)!) - shape.hollowHighestMm;
    });
    depths = { lowestMm, highestMm };
  }
  return surfaceWith(plan, shape, depths);
}

/** What a straightedge shows along a string's path from end to end of the board; negative: a hump. */
export function hollowUnderStringMm(plan: Plan, surface: HeightAt, string: string): number {
  const atMm = Array.from({ length: 49 }, (_, k) => (plan.lengthMm * k) / 48);
  return straightedgeGapMm(
    atMm,
    atMm.map((xMm) => surface(xMm, stringYMm(plan, string, xMm))),
  );
}

/** Radius of the arc at a crossline: straight from nut to end, and a swell in between. */
export function radiusMm(plan: Plan, shape: Shape, xMm: number): number {
  const u = xMm / plan.lengthMm;
  return shape.radiusNutMm + (shape.radiusEndMm - shape.radiusNutMm) * u + 4 * shape.radiusSwellMm * u * (1 - u);
}

/** Angle by which the section at a crossline is turned, radians, treble side up. */
export function rollRad(plan: Plan, shape: Shape, xMm: number): number {
  return ((shape.rollDeg + (shape.twistDeg * xMm) / plan.lengthMm) * Math.PI) / 180;
}

function surfaceWith(plan: Plan, shape: Shape, depths: Depths): HeightAt {
  const lean = leanFor(shape.deepestAt);
  const highestCurve = curve(shape.deepestAt, lean);
  const waveMm = wavesMm(plan, shape.waves ?? []);
  return (xMm, yMm) => {
    const u = xMm / plan.lengthMm;
    const along = curve(u, lean) / highestCurve;
    const roll = rollRad(plan, shape, xMm);
    const lowestY = stringYMm(plan, plan.strings[0]!, xMm);
    const highestY = stringYMm(plan, plan.strings.at(-1)!, xMm);
    const section = (ownY: number): number => {
      const share = (ownY - lowestY) / (highestY - lowestY);
      const hollowMm = (depths.lowestMm + (depths.highestMm - depths.lowestMm) * share) * along;
      return acrossMm(plan, shape, xMm, ownY) - hollowMm;
    };
    const own = turnedBack(section, roll, yMm);
    const bendMm = 4 * shape.bendMm * u * (1 - u);
    const placedMm = own.y * Math.sin(roll) + own.z * Math.cos(roll) + shape.heightMm + shape.pitch * xMm + bendMm;
    return placedMm + waveMm(xMm, yMm);
  };
}

/** The place of the untilted section that a roll brings to y: the roll is small, so three or four turns settle it. */
function turnedBack(section: (ownY: number) => number, roll: number, y: number): { y: number; z: number } {
  let ownY = y;
  for (let turn = 0; turn < 8; turn++) {
    const before = ownY;
    ownY = (y + section(ownY) * Math.sin(roll)) / Math.cos(roll);
    if (Math.abs(ownY - before) < 1e-7) break;
  }
  return { y: ownY, z: section(ownY) };
}

/** Arc across, crown at 0; beyond the ridge a straight flat that meets the arc at the ridge. */
function acrossMm(plan: Plan, shape: Shape, xMm: number, ownY: number): number {
  const radius = radiusMm(plan, shape, xMm);
  const arc = (y: number): number => Math.sqrt(radius * radius - y * y) - radius;
  if (shape.facet === null) return arc(ownY);
  const u = xMm / plan.lengthMm;
  const ridge = shape.facet.ridgeNutMm + (shape.facet.ridgeEndMm - shape.facet.ridgeNutMm) * u;
  const slope = shape.facet.slopeNut + (shape.facet.slopeEnd - shape.facet.slopeNut) * u;
  return ownY >= ridge ? arc(ownY) : arc(ridge) + slope * (ownY - ridge);
}

function curve(u: number, lean: number): number {
  return u * (1 - u) * (1 + lean * (u - 0.5));
}

/** The lean that puts the top of the curve at u0: its slope (1 − 2u)(1 + b(u − ½)) + b·u(1 − u) is 0 there. */
function leanFor(u0: number): number {
  return (2 * u0 - 1) / (u0 * (1 - u0) + (1 - 2 * u0) * (u0 - 0.5));
}

/** Where a rising function crosses zero. */
function bisect(from: number, to: number, rising: (at: number) => number): number {
  let low = from;
  let high = to;
  for (let step = 0; step < 32; step++) {
    const middle = (low + high) / 2;
    if (rising(middle) < 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
