/**
 * A thickness file (x, side, thickness, optional y) -> what is written in it, with every fault its text can show.
 *
 * Thickness and places are in mm always; a decimal comma is fine where semicolons or tabs separate. Settings belong in
 * the readings file.
 */
import type { Side } from "../examination.ts";
import type { Fault } from "../fault.ts";
import { type ColumnName, columnHeading } from "./columnHeading.ts";
import { type FaultList, faultList } from "./faultList.ts";
import { numberInCell } from "./numberInCell.ts";
import { hasItsCells } from "./rowWidth.ts";
import { secondHeader } from "./secondHeader.ts";
import { settingInLine } from "./settingLine.ts";
import { shownSafely } from "./shownSafely.ts";
import { type Header, type TableSink, tableReader } from "./tableReader.ts";

export type WrittenThickness = {
  readonly row: number;
  readonly xMm: number;
  readonly side: Side;
  /** Null where the file gives none. */
  readonly yMm: number | null;
  readonly thicknessMm: number;
};

/** Cells of the header, counted from 1; y null where there is no such column. */
export type ThicknessColumns = {
  readonly x: number;
  readonly side: number;
  readonly thickness: number;
  readonly y: number | null;
};

export type ThicknessFile = {
  readonly columns: ThicknessColumns | null;
  readonly rows: readonly WrittenThickness[];
  readonly faults: readonly Fault[];
};

/** The whole file at once. */
export function readThicknessFile(content: string | Uint8Array): ThicknessFile {
  const reader = thicknessFileReader();
  reader.push(typeof content === "string" ? new TextEncoder().encode(content) : content);
  return reader.finish();
}

/** The file piece by piece. */
export function thicknessFileReader(): { push(chunk: Uint8Array): void; finish(): ThicknessFile } {
  const faults = faultList("thickness");
  const table = thicknessTable(faults);
  const reader = tableReader(faults, table);

  return {
    push: reader.push,
    finish() {
      const { notText } = reader.finish();
      if (notText !== null) {
        const only = faultList("thickness");
        only.add({ line: notText.line, column: null }, "not-text", notText.saw, notText.remedy);
        return { columns: null, rows: [], faults: only.finish() };
      }
      const { columns, rows } = table;
      if (faults.total() === 0 && rows.length === 0) {
        const nothing = { line: null, column: null };
        if (columns() === null)
          faults.add(
            nothing,
            "empty-file",
            "nothing: no header, no rows",
            "Write the header `x,side,thickness` and the thicknesses under it.",
          );
        else
          faults.add(
            nothing,
            "no-readings",
            "a header and no thickness under it",
            "Write the thicknesses under the header, one a row.",
          );
      }
      return { columns: columns(), rows, faults: faults.finish() };
    },
  };
}

function thicknessTable(
  faults: FaultList,
): TableSink & { columns(): ThicknessColumns | null; readonly rows: readonly WrittenThickness[] } {
  const rows: WrittenThickness[] = [];
  let header: Header | null = null;
  let columns: ThicknessColumns | null = null;

  return {
    rows,
    columns: () => columns,
    comment(text, line) {
      const setting = settingInLine(text);
      if (setting === null) return;
      faults.add(
        { line, column: null },
        "setting-in-thickness",
        `the setting ${shownSafely(text)}`,
        "Move the setting to the readings file (thickness is in mm always), or write the remark without a colon.",
      );
    },
    header(found) {
      header = found;
      columns = thicknessColumns(found, faults);
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
          "One file holds one table: take this line out, and give other columns as a file of their own.",
        );
        return again === "same";
      }
      const row = thicknessRow(cells, line, columns, header, faults);
      if (row !== null) rows.push(row);
      return true;
    },
  };
}

function thicknessColumns(header: Header, faults: FaultList): ThicknessColumns | null {
  const before = faults.total();
  const found = new Map<ColumnName, number>();
  header.cells.forEach((cell, i) => {
    if (cell === "" && header.cells.slice(i).every((rest) => rest === "")) return;
    const place = { line: header.line, column: i + 1 };
    const heading = columnHeading(cell);
    if (heading === null || !["x", "side", "thickness", "y", "note"].includes(heading.name)) {
      const isReadings =
        heading !== null && (heading.name === "height" || heading.name === "depth" || heading.name === "gap");
      faults.add(
        place,
        isReadings ? "readings-file" : "column-unknown",
        `the column ${shownSafely(cell)}`,
        isReadings
          ? "Give a file of heights as the readings; a thickness file has the columns x, side, thickness."
          : "A thickness file has the columns x, side, thickness, and if wanted y and note: correct the name, or take the column out.",
      );
    } else if (found.has(heading.name) && heading.name !== "note") {
      faults.add(
        place,
        "column-twice",
        `a second column for ${heading.name}: ${shownSafely(cell)}`,
        "Keep one of the two columns.",
      );
    } else if (heading.unitMm !== null && heading.unitMm !== 1) {
      faults.add(
        place,
        "unit-unknown",
        `the heading ${shownSafely(cell)}`,
        "Convert the column to mm: a thickness file is in mm throughout.",
      );
    } else found.set(heading.name, i + 1);
  });
  const x = found.get("x");
  const side = found.get("side");
  const thickness = found.get("thickness");
  if (faults.total() > before) return null;
  if (x === undefined || side === undefined || thickness === undefined) {
    faults.add(
      { line: header.line, column: null },
      "column-missing",
      `the header ${shownSafely(header.cells.join(header.delimiter))}`,
      "Write the header `x,side,thickness` (if wanted also y) above the rows.",
    );
    return null;
  }
  return { x, side, thickness, y: found.get("y") ?? null };
}

const sides = new Map<string, Side>([
  ["bass", "bass"],
  ["bass edge", "bass"],
  ["treble", "treble"],
  ["treble edge", "treble"],
  ["centre", "centre"],
  ["center", "centre"],
]);

function thicknessRow(
  cells: readonly string[],
  line: number,
  columns: ThicknessColumns,
  header: Header,
  faults: FaultList,
): WrittenThickness | null {
  const width = header.cells.findLastIndex((cell) => cell !== "") + 1;
  const leastWidth = Math.max(columns.x, columns.side, columns.thickness);
  if (!hasItsCells(cells, line, { width, leastWidth }, header, faults)) return null;

  const number = (column: number): number | "empty" | null => {
    const found = numberInCell(cells[column - 1] ?? "", header.delimiter !== ",");
    if (found.outcome === "none") faults.add({ line, column }, found.code, found.saw, found.remedy);
    return found.outcome === "number" ? found.value : found.outcome === "empty" ? "empty" : null;
  };
  const thicknessMm = number(columns.thickness);
  if (thicknessMm === "empty") return null;
  const xMm = number(columns.x);
  const yMm = columns.y === null ? "empty" : number(columns.y);
  if (xMm === "empty")
    faults.add(
      { line, column: columns.x },
      "x-missing",
      "a thickness without its x",
      "Write the crossline's x in this cell, or take the row out.",
    );
  const saidSide = cells[columns.side - 1]!.trim().toLowerCase().replace(/\s+/g, " ");
  const side = sides.get(saidSide);
  if (side === undefined) {
    faults.add(
      { line, column: columns.side },
      "side-unknown",
      saidSide === "" ? "no side" : `the side ${shownSafely(cells[columns.side - 1]!.trim())}`,
      "Write bass or treble (at the edge), or centre (over the hollowed underside).",
    );
  }
  if (thicknessMm === null || xMm === "empty" || xMm === null || yMm === null || side === undefined) return null;
  return { row: line, xMm, side, yMm: yMm === "empty" ? null : yMm, thicknessMm };
}
