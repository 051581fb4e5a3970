/**
 * Readings as the bench gave them: places and heights in mm, checked, not yet compensated.
 *
 * They stand in the order of the file, which is the order in which they were taken.
 */
import type { Side } from "../examination.ts";

/**
 * Why a place was read, where not for its turn in the grid:
 *
 *   lowest  searched for by hand, the lowest spot near that place. It counts for wear, depth and cut; the unworn surface is
 *           found without it, since it was picked for being low.
 *   check   read before in the same set-up and read again, to see how far the gauge has drifted.
 */
export type Mark = "lowest" | "check";

export type Reading = {
  /** Line of the file, from 1. */
  readonly row: number;
  readonly xMm: number;
  readonly yMm: number;
  /** Height as the gauge shows it, mm, positive away from the neck (a depth gauge is already turned round). */
  readonly gaugeMm: number;
  /** The line's name as given ("C", "C/G", "bass edge"), null where y was a number. */
  readonly line: string | null;
  readonly mark: Mark | null;
  /** Which set-up of the rail it belongs to: an index into `setups`. Each has its own height and pitch. */
  readonly setup: number;
};

/** Checked readings; the only thing that compensation accepts. */
export type Readings = {
  readonly stage: "checked";
  readonly readings: readonly Reading[];
  /** Labels of the set-ups in the order of the file; [""] where the file names none. */
  readonly setups: readonly string[];
  /** How many of the file's readings were brought together in these (condense.ts); absent where each is one of the file's. */
  readonly condensedFrom?: number;
};

export type ThicknessReading = {
  readonly row: number;
  readonly xMm: number;
  readonly side: Side;
  /** Across, for `centre` readings off the centreline; edges stand at the outline. */
  readonly yMm: number;
  readonly thicknessMm: number;
};
