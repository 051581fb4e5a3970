/**
 * Has a row the cells that the header promises? Empty cells beyond the header (a spreadsheet's trailing delimiters)
 * are let pass; a missing one is not, since nobody can tell which it is.
 */
import type { FaultList } from "./faultList.ts";
import { shownSafely } from "./shownSafely.ts";
import type { Header } from "./tableReader.ts";

const delimiterInWords = { ",": "commas", ";": "semicolons", "\t": "tabs" } as const;

export type Widths = { readonly width: number; readonly leastWidth: number };

/** False after telling what is wrong. */
export function hasItsCells(
  cells: readonly string[],
  line: number,
  widths: Widths,
  header: Header,
  faults: FaultList,
): boolean {
  const used = cells.findLastIndex((cell) => cell.trim() !== "") + 1;
  if (cells.length >= widths.leastWidth && used <= widths.width) return true;

  const text = cells.join(header.delimiter);
  const saw = `${cells.length} ${cells.length === 1 ? "cell" : "cells"} under a header of ${widths.width}: ${shownSafely(text)}`;
  const place = { line, column: null };
  if (header.delimiter === "," && used === 2 * widths.width) {
    faults.add(
      place,
      "decimal-comma",
      saw,
      "The commas look like decimal commas: save the file with semicolons between the cells, or with decimal points.",
    );
  } else if (header.delimiter === "," && used > widths.width) {
    faults.add(
      place,
      "cell-count",
      saw,
      "Give each column one cell. If some commas are decimal commas, write points, or save the file with semicolons.",
    );
  } else if (cells.length === 1) {
    faults.add(
      place,
      "cell-count",
      saw,
      `Separate the cells of every row as in the header, by ${delimiterInWords[header.delimiter]}; begin remarks with #.`,
    );
  } else {
    faults.add(
      place,
      "cell-count",
      saw,
      "Give each column one cell; leave a cell empty, with its delimiter, where there is no reading.",
    );
  }
  return false;
}
