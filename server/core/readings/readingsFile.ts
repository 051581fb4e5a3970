/**
 * A readings file taken apart but not yet judged: what stands where, in the file's own units.
 *
 * What can be known only with the instrument and the gauge at hand (places on the board, units, names of lines) is
 * left to the check; so it carries enough of where things stood to tell a fault at its cell.
 */
import type { SettingEntry } from "../board/settings.ts";
import type { Fault } from "../fault.ts";
import type { FaultPlace } from "./faultList.ts";
import type { WrittenGap } from "./gapRows.ts";
import type { ReadingColumns } from "./readingColumns.ts";

export type Quantity = "x" | "y" | "height";

/** A column of lengths: its cell in the header, and the unit its heading names (mm per unit; null: none). */
export type LengthColumn = { readonly place: FaultPlace; readonly heading: string; readonly unitMm: number | null };

/** A line's name and the cell where it was first met. */
export type NamedLine = { readonly name: string; readonly place: FaultPlace };

/** A number with "mm" written behind it, where the unit of the file has yet to be settled. */
export type NumberInMm = { readonly quantity: Quantity; readonly place: FaultPlace; readonly saw: string };

export type ReadingsFile = {
  /** The settings among the `#` lines above the header. */
  readonly entries: readonly SettingEntry[];
  /** Null where the header could not be read. */
  readonly layout: "list" | "grid" | "gaps" | null;
  readonly columns: { readonly [name in Quantity]: LengthColumn | null };
  /** The heights were headed "depth". */
  readonly headedDepth: boolean;
  /** Labels of the set-ups in the order of the file; empty where it has no such column. */
  readonly setups: readonly string[];
  readonly names: readonly NamedLine[];
  readonly readings: ReadingColumns;
  /** Gaps under a straightedge or a template; null where the file holds heights. */
  readonly gaps: readonly WrittenGap[] | null;
  /** The column of template radii of a file of gaps, if it has one. */
  readonly templateColumn: LengthColumn | null;
  readonly inMm: readonly NumberInMm[];
  readonly faults: readonly Fault[];
};
