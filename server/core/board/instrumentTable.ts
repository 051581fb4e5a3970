/**
 * The table of instruments, and how a setting such as "viola 390" becomes an instrument with every figure resolved.
 *
 * The table's figures each carry their origin; where authorities disagree the other figures stand beside as
 * `alternatives`, for the workshop to choose from by a setting. What the workshop gives wins over the table and counts
 * as confirmed. Lengths in mm; pitches in semitones above C0.
 */
import type { Figure, FigureName, Kind } from "./instrument.ts";

/** A figure of the table: with the published sources behind it, and what other authorities say. */
export type TableFigure = Figure & {
  /** Codes in the table's list of sources. */
  readonly cites: readonly string[];
  readonly alternatives: readonly (Figure & { readonly cites: readonly string[] })[];
};

/** The bands are not in the table: left out, they equal the tolerances. */
export type TableFigureName = Exclude<FigureName, "radiusBandMm" | "hollowBandMm">;

/** One size of one kind of instrument, with a set of strings. */
export type TableInstrument = {
  readonly size: string;
  /** Other words for this size: "full size", "medium". */
  readonly alsoCalled: readonly string[];
  readonly strings: readonly string[];
  readonly figures: { readonly [name in TableFigureName]: TableFigure };
  /** A new board's thickness: at the edges, and over the hollowed underside. */
  readonly asNew: { readonly edgeThicknessMm: TableFigure; readonly centreThicknessMm: TableFigure };
};

export type TableKind = {
  readonly kind: Kind;
  readonly alsoCalled: readonly string[];
  /** Size meant where none is said. */
  readonly usualSize: string;
  /** Usual pitches of the strings by name, semitones above C0; the lowest string's octave is looked up here. */
  readonly pitches: Readonly<Record<string, number>>;
  readonly positions: {
    readonly origin: string;
    readonly named: readonly { readonly name: string; readonly fromSemitone: number }[];
  };
  readonly instruments: readonly TableInstrument[];
};

export type InstrumentTable = {
  readonly kinds: readonly TableKind[];
  /** Facts of the trade that the program is checked against. */
  readonly commonPractice: readonly { readonly says: string; readonly origin: string }[];
  readonly sources: readonly {
    readonly code: string;
    readonly title: string;
    /** Null where the source has no public address. */
    readonly address: string | null;
  }[];
};
