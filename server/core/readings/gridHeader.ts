/**
 * The header of a grid -> its lines, each named or at a y; the first column holds the crosslines, whatever it is called.
 */
import type { FaultList } from "./faultList.ts";
import { type HeadedColumns, lengthColumn } from "./headedColumns.ts";
import { listColumns } from "./listHeader.ts";
import { numberInCell } from "./numberInCell.ts";
import type { LengthColumn } from "./readingsFile.ts";
import { shownSafely } from "./shownSafely.ts";

/** A line of a grid: its cell, and its name, or null where the heading is a y. */
export type GridLine = { readonly cell: number; readonly name: string | null };

export type GridLayout = {
  readonly layout: "grid";
  readonly x: LengthColumn;
  readonly lines: readonly GridLine[];
  readonly width: number;
};

export function gridHeader(columns: HeadedColumns, faults: FaultList): GridLayout {
  const { header, cells, headings, place } = columns;
  const lines: GridLine[] = [];
  const met = new Set<string>();
  for (let i = 1; i < cells.length; i++) {
    const text = cells[i]!.replace(/\s+/g, " ");
    const number = numberInCell(text, header.delimiter !== ",");
    const known = headings[i]?.name;
    if (text === "") {
      faults.add(
        place(i),
        "column-without-name",
        "a column without a name",
        "Head every column of a grid with its line: a name (C, C/G, bass edge) or y in mm.",
      );
    } else if (known !== undefined) {
      faults.add(
        place(i),
        "column-unknown",
        `the column ${shownSafely(text)} in a grid`,
        `A grid has the crosslines x and then lines only. For more, write a list: ${listColumns}.`,
      );
    } else if (number.outcome === "none" && /^[+\-\u2212\u2013]?[\d.,]/.test(text)) {
      faults.add(place(i), number.code, number.saw, number.remedy);
    } else {
      const isY = number.outcome === "number";
      const key = isY ? String(number.value) : text.toLowerCase();
      if (met.has(key))
        faults.add(
          place(i),
          "column-twice",
          `the line ${shownSafely(text)} a second time`,
          "Keep one column for each line; for repeats, repeat the row or write a list.",
        );
      met.add(key);
      lines.push({ cell: i, name: isY ? null : text });
    }
  }
  const x = lengthColumn(columns, 0, faults);
  if (lines.length === 0 && cells.length < 2) {
    faults.add(
      place(),
      "column-missing",
      "a grid without lines",
      "Head the further columns with their lines: names (C, G) or y in mm.",
    );
  }
  return { layout: "grid", x, lines, width: cells.length };
}
