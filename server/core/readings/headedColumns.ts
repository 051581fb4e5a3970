/**
 * A header taken apart: its cells with what each names, and its columns of lengths with their units.
 */
import { type ColumnHeading, columnHeading } from "./columnHeading.ts";
import type { FaultList, FaultPlace } from "./faultList.ts";
import type { LengthColumn } from "./readingsFile.ts";
import { shownSafely } from "./shownSafely.ts";
import type { Header } from "./tableReader.ts";

export type HeadedColumns = {
  readonly header: Header;
  /** Without the empty ones that a spreadsheet trails behind. */
  readonly cells: readonly string[];
  /** Null for a cell that names nothing known. */
  readonly headings: readonly (ColumnHeading | null)[];
  /** The whole header, for a message. */
  readonly inWords: string;
  /** Of a cell, counted from 0; of the whole line without one. */
  place(cell?: number): FaultPlace;
};

export function headedColumns(header: Header): HeadedColumns {
  const cells = header.cells.slice(0, header.cells.findLastIndex((cell) => cell !== "") + 1);
  return {
    header,
    cells,
    headings: cells.map(columnHeading),
    inWords: shownSafely(header.cells.join(header.delimiter)),
    place: (cell) => ({ line: header.line, column: cell === undefined ? null : cell + 1 }),
  };
}

/** The column at a cell counted from 0 (−1: there is none); a unit that isn't read here is told. */
export function lengthColumn(columns: HeadedColumns, cell: number, faults: FaultList): LengthColumn {
  const place = columns.place(cell < 0 ? undefined : cell);
  const heading = columns.cells[cell] ?? "";
  const unitMm = columns.headings[cell]?.unitMm ?? null;
  if (unitMm !== "unknown") return { place, heading, unitMm };
  faults.add(
    place,
    "unit-unknown",
    `the unit in the heading ${shownSafely(heading)}`,
    "Convert the column to mm, 0.01mm, in or thou, and name that unit in the heading.",
  );
  return { place, heading, unitMm: null };
}
