/**
 * Readings as the bench gave them: places and heights in mm, checked, not yet compensated.
 */
import type { Side } from "../examination.ts";

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
};

/** Checked readings; the only thing that compensation accepts. */
export type Readings = { readonly stage: "checked"; readonly readings: readonly Reading[] };

export type ThicknessReading = {
  readonly row: number;
  readonly xMm: number;
  readonly side: Side;
  /** Across, for `centre` readings off the centreline; edges stand at the outline. */
  readonly yMm: number;
  readonly thicknessMm: number;
};
