/**
 * The header of a rail's error profile -> which cell of a row holds what: `x`, `error`, and if wanted `u` and `note`.
 */
import type { ColumnName } from "./columnHeading.ts";
import type { FaultList } from "./faultList.ts";
import { headedColumns, lengthColumn } from "./headedColumns.ts";
import { shownSafely } from "./shownSafely.ts";
import type { Header } from "./tableReader.ts";

/** A column of lengths: its cell, counted from 1, and the mm per unit that its heading names (1 where it names none). */
export type RailColumn = { readonly cell: number; readonly unitMm: number };

export type RailColumns = {
  readonly x: RailColumn;
  readonly error: RailColumn;
  readonly u: RailColumn | null;
  /** How many columns have a heading. */
  readonly width: number;
};

const known: ReadonlySet<ColumnName> = new Set(["x", "error", "u", "note"]);

/** Null after telling what is wrong. */
export function railHeader(header: Header, faults: FaultList): RailColumns | null {
  const columns = headedColumns(header);
  const { cells, headings, place, inWords } = columns;
  const before = faults.total();
  const found = new Map<ColumnName, RailColumn>();
  headings.forEach((heading, i) => {
    const saw = `the column ${shownSafely(cells[i]!)}`;
    if (heading?.name === "height" || heading?.name === "depth") {
      faults.add(
        place(i),
        "rail-survey",
        saw,
        "This looks like the survey of a rail: turn it into a profile with `boardtrue rail`, and give that.",
      );
    } else if (heading === null || !known.has(heading.name)) {
      faults.add(
        place(i),
        "column-unknown",
        saw,
        "A rail's profile has the columns x, error, and if wanted u and note: correct the name, or take the column out.",
      );
    } else if (found.has(heading.name) && heading.name !== "note") {
      faults.add(place(i), "column-twice", `a second column for ${heading.name}`, "Keep one of the two columns.");
    } else found.set(heading.name, { cell: i + 1, unitMm: lengthColumn(columns, i, faults).unitMm ?? 1 });
  });
  const x = found.get("x");
  const error = found.get("error");
  if (faults.total() > before) return null;
  if (x === undefined || error === undefined) {
    faults.add(place(), "column-missing", `the header ${inWords}`, "Write the header `x,error` above the rows.");
    return null;
  }
  return { x, error, u: found.get("u") ?? null, width: cells.length };
}
