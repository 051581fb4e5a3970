/**
 * An instrument with every dimension and limit resolved, each with its origin.
 */

/** Where a figure comes from. "given" is what the workshop itself entered: it counts as confirmed. */
export type Source = "published" | "derived" | "practice" | "memory" | "given";

/** A dimension or limit with its origin in words, e.g. "from memory" or "common practice, no source". */
export type Figure = { readonly value: number; readonly source: Source; readonly origin: string };

export type Kind = "violin" | "viola" | "cello" | "bass";

/** Every figure of an instrument. Lengths in mm; `hollowDeepest` is a fraction of the board's length. */
export const figureNames = [
  "boardLengthMm",
  "widthNutMm",
  "widthEndMm",
  "stringLengthMm",
  "spacingNutMm",
  "spacingBridgeMm",
  "radiusNutMm",
  "radiusMiddleMm",
  "radiusEndMm",
  "hollowLowestMm",
  "hollowHighestMm",
  "hollowDeepest",
  "radiusToleranceMm",
  "hollowToleranceMm",
  "radiusBandMm",
  "hollowBandMm",
  "edgeLimitMm",
  "centreLimitMm",
  "dressAtMm",
  "dressingSpendMm",
  "allowanceMm",
  "finishAllowanceMm",
  "projectionBoundMm",
  "crownBoundMm",
  "edgeInsetMm",
  "rutWidthMm",
] as const;

export type FigureName = (typeof figureNames)[number];

/** Ridge of a flat facet on the bass side: y where it begins (negative), and its slope dz/dy where given (null: as fitted). */
export type Facet = {
  readonly ridgeNutMm: Figure;
  readonly ridgeEndMm: Figure;
  readonly slopeNut: Figure | null;
  readonly slopeEnd: Figure | null;
};

export type Instrument = { readonly [name in FigureName]: Figure } & {
  readonly kind: Kind;
  /** E.g. "4/4", "1/2", "405". */
  readonly size: string;
  /** Names of the strings, lowest first. */
  readonly strings: readonly string[];
  /** Pitch of each open string in semitones above C0 (equal temperament, scientific pitch). */
  readonly openPitches: readonly number[];
  /** Positions, nearest the nut first, each with the lowest stopped semitone that no position before it holds. */
  readonly positions: readonly { readonly name: string; readonly fromSemitone: number }[];
  readonly facet: Facet | null;
};
