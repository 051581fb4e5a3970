/**
 * A rail's error profile (x, error, optional u) -> what is written in it, with every fault that its text alone can show.
 *
 * Lengths are in mm unless a heading names another unit (`error_thou`); the same delimiters and decimal commas as in other
 * files. Settings belong in the readings file.
 */
import type { Fault } from "../fault.ts";
import { type FaultList, faultList } from "./faultList.ts";
import { numberInCell } from "./numberInCell.ts";
import { type RailColumn, type RailColumns, railHeader } from "./railHeader.ts";
import { hasItsCells } from "./rowWidth.ts";
import { secondHeader } from "./secondHeader.ts";
import { settingInLine } from "./settingLine.ts";
import { shownSafely } from "./shownSafely.ts";
import { type Header, type TableSink, tableReader } from "./tableReader.ts";

/** One row: along the rail, its error, and that error's expanded uncertainty (null where none is given), mm. */
export type WrittenRailPoint = {
  readonly row: number;
  readonly xMm: number;
  readonly errorMm: number;
  readonly expandedUMm: number | null;
};

export type RailFile = {
  readonly columns: RailColumns | null;
  readonly points: readonly WrittenRailPoint[];
  readonly faults: readonly Fault[];
};

/** A rail is surveyed at some dozens of places; a profile of more than this is something else. */
const mostPoints = 10_000;

/** The whole file at once. */
export function readRailFile(content: string | Uint8Array): RailFile {
  const reader = railFileReader();
  reader.push(typeof content === "string" ? new TextEncoder().encode(content) : content);
  return reader.finish();
}

/** The file piece by piece. */
export function railFileReader(): { push(chunk: Uint8Array): void; finish(): RailFile } {
  const faults = faultList("rail");
  const points: WrittenRailPoint[] = [];
  const table = railTable(points, faults);
  const reader = tableReader(faults, table);
  return {
    push: reader.push,
    finish() {
      const { notText } = reader.finish();
      if (notText !== null) {
        const only = faultList("rail");
        only.add({ line: notText.line, column: null }, "not-text", notText.saw, notText.remedy);
        return { columns: null, points: [], faults: only.finish() };
      }
      const columns = table.columns();
      if (faults.total() === 0 && points.length === 0) {
        faults.add(
          { line: null, column: null },
          columns === null ? "empty-file" : "no-readings",
          columns === null ? "nothing: no header, no rows" : "a header and no error under it",
          "Write the header `x,error` and under it the rail's error at places along it, or let `boardtrue rail` write the file.",
        );
      }
      return { columns, points, faults: faults.finish() };
    },
  };
}

function railTable(points: WrittenRailPoint[], faults: FaultList): TableSink & { columns(): RailColumns | null } {
  let header: Header | null = null;
  let columns: RailColumns | null = null;

  return {
    columns: () => columns,
    comment(text, line) {
      if (settingInLine(text) === null) return;
      faults.add(
        { line, column: null },
        "setting-in-rail",
        `the setting ${shownSafely(text)}`,
        "Move the setting to the readings file, name a unit in the heading (`error_thou`), or write the remark without a colon.",
      );
    },
    header(found) {
      header = found;
      columns = railHeader(found, faults);
      return columns !== null;
    },
    row(cells, line) {
      if (header === null || columns === null) throw new Error("a row without a header");
      const again = secondHeader(cells, header);
      if (again !== null) {
        faults.add(
          { line, column: null },
          "second-header",
          `a second header: ${shownSafely(cells.join(header.delimiter))}`,
          "One file holds one table: take this line out, and give another rail's profile as a file of its own.",
        );
        return again === "same";
      }
      const point = railPoint(cells, line, columns, header, faults);
      if (point === null) return true;
      points.push(point);
      if (points.length <= mostPoints) return true;
      faults.add(
        { line, column: null },
        "too-many-points",
        `more than ${mostPoints} places along the rail`,
        "Give the rail's error at some dozens of places.",
      );
      return false;
    },
  };
}

/** Null where the row gives no error, or after telling what is wrong. */
function railPoint(
  cells: readonly string[],
  line: number,
  { x, error, u, width }: RailColumns,
  header: Header,
  faults: FaultList,
): WrittenRailPoint | null {
  const leastWidth = Math.max(x.cell, error.cell);
  if (!hasItsCells(cells, line, { width, leastWidth }, header, faults)) return null;

  const lengthIn = ({ cell, unitMm }: RailColumn): number | "empty" | null => {
    const found = numberInCell(cells[cell - 1] ?? "", header.delimiter !== ",");
    if (found.outcome === "empty") return "empty";
    if (found.outcome === "none") {
      faults.add({ line, column: cell }, found.code, found.saw, found.remedy);
      return null;
    }
    if (found.unit === null || unitMm === 1) return found.value * unitMm;
    faults.add(
      { line, column: cell },
      "unit-in-cell",
      `${shownSafely(cells[cell - 1]!.trim())} in a column of another unit`,
      "Write numbers alone, all in one unit, and name that unit in the heading.",
    );
    return null;
  };
  const errorMm = lengthIn(error);
  if (errorMm === "empty") return null;
  const xMm = lengthIn(x);
  const expandedUMm = u === null ? "empty" : lengthIn(u);
  if (xMm === "empty") {
    faults.add(
      { line, column: x.cell },
      "x-missing",
      "an error without its x",
      "Write x in this cell, or take the row out.",
    );
  }
  if (errorMm === null || xMm === null || xMm === "empty" || expandedUMm === null) return null;
  return { row: line, xMm, errorMm, expandedUMm: expandedUMm === "empty" ? null : expandedUMm };
}
