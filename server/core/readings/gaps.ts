/**
 * Gaps as a feeler gauge finds them, checked: under a straightedge laid along a line, or under a template laid across.
 *
 * Lengths in mm, places in the frame of units.ts, in the order of the file. A gap lies within one step of the leaf that was
 * written: benches write the thickest leaf that goes in, or the thinnest that doesn't.
 */

export type StraightedgeGap = {
  /** Line of the file, from 1. */
  readonly row: number;
  readonly xMm: number;
  readonly yMm: number;
  /** The line along which the straightedge lay: its name as the tool spells it ("C", "C/G"), or its y in mm. */
  readonly line: string | number;
  readonly gapMm: number;
};

export type TemplateGap = {
  readonly row: number;
  readonly xMm: number;
  readonly yMm: number;
  readonly gapMm: number;
  readonly templateRadiusMm: number;
};

export type Gaps = {
  readonly stage: "checked";
  readonly straightedge: readonly StraightedgeGap[];
  readonly template: readonly TemplateGap[];
  /** From one leaf of the feeler gauge to the next. */
  readonly stepMm: number;
};
