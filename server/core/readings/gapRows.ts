/**
 * Rows of a file of gaps: one gap a row, under a straightedge where no template is named, else under that template.
 *
 * Numbers stay in the file's own units; what they mean on the board is for checkGaps.ts.
 */
import type { GapsLayout } from "./gapsHeader.ts";
import { hasItsCells } from "./rowWidth.ts";
import type { Header } from "./tableReader.ts";
import type { WrittenReadings } from "./writtenReadings.ts";

export type WrittenGap = {
  /** Line of the file, and the cell in which the gap stands. */
  readonly row: number;
  readonly column: number;
  readonly x: number;
  /** NaN where the line has a name. */
  readonly y: number;
  /** Which of the file's line names; −1 where y is a number. */
  readonly nameIndex: number;
  readonly gap: number;
  /** Radius of the template; null: under a straightedge. */
  readonly template: number | null;
};

export type GapRows = {
  row(cells: readonly string[], line: number): void;
  setups(): readonly string[];
  gaps(): readonly WrittenGap[];
};

/** A bench takes a few dozen; far more is a scan, which is no work for a feeler gauge. */
const mostGaps = 1_000;

export function gapRows(layout: GapsLayout, header: Header, into: WrittenReadings): GapRows {
  const at = layout.cells;
  const { faults } = into;
  const gaps: WrittenGap[] = [];

  function row(cells: readonly string[], line: number): void {
    if (!hasItsCells(cells, line, layout, header, faults)) return;
    const gap = into.number(cells[at.gap]!, "height", line, at.gap + 1);
    if (gap === "empty") return;
    const x = into.number(cells[at.x]!, "x", line, at.x + 1);
    if (x === "empty") {
      faults.add(
        { line, column: at.x + 1 },
        "x-missing",
        "a gap without its x",
        "Write in this cell how far from the nut the gap was measured, or take the row out.",
      );
    }
    const template = at.template < 0 ? "empty" : into.number(cells[at.template] ?? "", "y", line, at.template + 1);
    const across = acrossIn(cells, line);
    if (typeof x !== "number" || gap === null || template === null || across === null) return;
    if (gaps.length === mostGaps) tellTooMany(line);
    if (gaps.length > mostGaps) return;
    gaps.push({
      row: line,
      column: at.gap + 1,
      x,
      ...across,
      gap,
      template: template === "empty" ? null : template,
    });
  }

  /** The line's name or y; null after telling what is wrong. */
  function acrossIn(cells: readonly string[], line: number): { y: number; nameIndex: number } | null {
    const name = at.line < 0 ? "" : (cells[at.line] ?? "").trim().replace(/\s+/g, " ");
    const yCell = at.y < 0 ? "" : (cells[at.y] ?? "").trim();
    if (name !== "" && yCell !== "") {
      faults.add(
        { line, column: at.y + 1 },
        "y-and-line",
        "a line and a y in one row",
        "Keep one of the two: both say where across the board the gap was measured.",
      );
      return null;
    }
    if (name === "" && yCell === "") {
      const column = (at.line < 0 ? at.y : at.line) + 1;
      faults.add(
        { line, column },
        "y-missing",
        "a gap without its line",
        "Write the line in this cell (C, C/G, bass edge, or y in mm), or take the row out.",
      );
      return null;
    }
    if (name !== "" && !/^[+\-\u2212\u2013]?[\d.,]/.test(name) && !name.includes("\uFFFD")) {
      return { y: Number.NaN, nameIndex: into.nameIndex(name, { line, column: at.line + 1 }) };
    }
    const y = name === "" ? into.number(yCell, "y", line, at.y + 1) : into.number(name, "y", line, at.line + 1);
    return typeof y === "number" ? { y, nameIndex: -1 } : null;
  }

  function tellTooMany(line: number): void {
    faults.add(
      { line, column: null },
      "too-many-readings",
      `more than ${mostGaps} gaps`,
      "Is this a scan of heights? Then head the column `height`.",
    );
  }

  return { row, setups: () => [], gaps: () => gaps };
}
