/**
 * What a quick look has seen of a board, whichever way it looked. Lengths in mm; places in the frame of units.ts.
 */
import type { Point } from "../examination.ts";
import type { Quantity } from "../units.ts";

export type Range = readonly [from: number, to: number];

/** A hollow along a line: as a straightedge shows it, positive where there is a gap, negative where it rocks on a hump. */
export type LookedHollow = {
  /** "under the C string", "along the centre"; and the way it runs. */
  readonly where: string;
  /** Index of the string above the line; null where none is. */
  readonly stringIndex: number | null;
  readonly yAtMm: (xMm: number) => number;
  readonly hollowMm: Quantity;
  readonly deepestAtMm: number;
  /** What the straightedge shows with any wear in it; null where too few readings lie on the line. */
  readonly measuredMm: number | null;
  readonly withinMm: Range;
};

/** The radius of the arc at a crossline. */
export type LookedRadius = { readonly xMm: number; readonly radiusMm: Quantity; readonly withinMm: Range };

/** A template of this radius showed only on which side of it the board's radius lies: light at its edges, or at its middle. */
export type TemplateSide = {
  readonly xMm: number;
  readonly templateRadiusMm: number;
  readonly side: "rounder" | "flatter";
  readonly withinMm: Range;
};

/** Wood missing at one place: below the smooth surface through the others. */
export type LookedWear = {
  readonly xMm: number;
  readonly yMm: number;
  readonly wearMm: Quantity;
  /** Whether it is more than the scatter of the readings may be. */
  readonly stands: boolean;
};

export type Looked = {
  readonly hollows: readonly LookedHollow[];
  readonly radii: readonly LookedRadius[];
  readonly sides: readonly TemplateSide[];
  /** The deepest first. */
  readonly wear: readonly LookedWear[];
  readonly points: readonly Point[];
  /** What was taken for granted, in a luthier's words. */
  readonly assumed: readonly string[];
};

/** How far a value is out of its range; negative inside it. */
export function outsideMm(value: number, [from, to]: Range): number {
  return Math.max(from - value, value - to);
}

/** By what can be said for sure of each. */
export function deepestFirst(a: LookedWear, b: LookedWear): number {
  return b.wearMm.value - b.wearMm.u - (a.wearMm.value - a.wearMm.u);
}
