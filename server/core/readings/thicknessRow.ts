/**
 * A row of a thickness file -> one thickness as written.
 */
import type { Side } from "../examination.ts";
import type { FaultList } from "./faultList.ts";
import { numberInCell } from "./numberInCell.ts";
import { hasItsCells } from "./rowWidth.ts";
import { shownSafely } from "./shownSafely.ts";
import type { Header } from "./tableReader.ts";
import type { ThicknessColumns } from "./thicknessHeader.ts";

export type WrittenThickness = {
  readonly row: number;
  readonly xMm: number;
  readonly side: Side;
  /** Null where the file gives none. */
  readonly yMm: number | null;
  readonly thicknessMm: number;
};

const sides = new Map<string, Side>([
  ["bass", "bass"],
  ["bass edge", "bass"],
  ["treble", "treble"],
  ["treble edge", "treble"],
  ["centre", "centre"],
  ["center", "centre"],
]);

/** Null where there is no thickness, or after telling what is wrong. */
export function thicknessRow(
  cells: readonly string[],
  line: number,
  columns: ThicknessColumns,
  header: Header,
  faults: FaultList,
): WrittenThickness | null {
  const leastWidth = Math.max(columns.x, columns.side, columns.thickness);
  if (!hasItsCells(cells, line, { width: columns.width, leastWidth }, header, faults)) return null;

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
