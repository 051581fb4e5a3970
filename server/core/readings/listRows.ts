/**
 * Rows of a list: one reading a row.
 */

import type { ListLayout } from "./listHeader.ts";
import type { Mark } from "./readings.ts";
import { hasItsCells } from "./rowWidth.ts";
import { setupLabels } from "./setupLabels.ts";
import { shownSafely } from "./shownSafely.ts";
import type { Header } from "./tableReader.ts";
import type { WrittenReadings } from "./writtenReadings.ts";

/** A string, two joined by a stroke, an edge or the centre: nothing that a y could be. */
const lineName = /^\s*(?:[a-h][#b]?\d?(?:\/[a-h][#b]?\d?)?|(?:bass|treble) edge|cent(?:re|er))\s*$/i;

export type ListRows = { row(cells: readonly string[], line: number): void; setups(): readonly string[] };

export function listRows(layout: ListLayout, header: Header, into: WrittenReadings): ListRows {
  const at = layout.cells;
  const { faults } = into;
  const setups = setupLabels(faults);

  function row(cells: readonly string[], line: number): void {
    if (!hasItsCells(cells, line, layout, header, faults)) return;
    const setup = at.setup < 0 ? 0 : setups.numberOf(cells[at.setup]!, { line, column: at.setup + 1 });

    const height = into.number(cells[at.height]!, "height", line, at.height + 1);
    if (height === "empty") return;
    const x = into.number(cells[at.x]!, "x", line, at.x + 1);
    const across = acrossIn(cells, line);
    const mark = markIn(at.mark < 0 ? "" : (cells[at.mark] ?? ""), line);
    if (x === "empty") {
      faults.add(
        { line, column: at.x + 1 },
        "x-missing",
        "a height without its x",
        "Write the crossline's x in this cell, or take the row out.",
      );
    }
    if (x === "empty" || x === null || across === null || mark === "unknown" || height === null) return;
    into.readings.add({ row: line, column: at.height + 1, x, ...across, height, mark, setup });
  }

  /** NaN where the list has no such column. */
  function acrossIn(cells: readonly string[], line: number): { y: number; nameIndex: number } | null {
    if (at.y >= 0) return acrossByY(cells[at.y]!, line);
    return at.line >= 0 ? acrossByLine(cells[at.line]!, line) : { y: Number.NaN, nameIndex: -1 };
  }

  function acrossByY(cell: string, line: number): { y: number; nameIndex: number } | null {
    if (lineName.test(cell)) {
      faults.add(
        { line, column: at.y + 1 },
        "name-for-y",
        `the line ${shownSafely(cell.trim())} in the column y`,
        "Write y in mm (0 on the centreline, treble positive), or head the column `line`.",
      );
      return null;
    }
    const y = into.number(cell, "y", line, at.y + 1);
    if (y !== "empty") return y === null ? null : { y, nameIndex: -1 };
    faults.add(
      { line, column: at.y + 1 },
      "y-missing",
      "a height without its y",
      "Write y in this cell (0 on the centreline, treble positive), or take the row out.",
    );
    return null;
  }

  /** A line is a y or a name; what begins like a number has to be one. */
  function acrossByLine(cell: string, line: number): { y: number; nameIndex: number } | null {
    const text = cell.trim().replace(/\s+/g, " ");
    if (text === "") {
      faults.add(
        { line, column: at.line + 1 },
        "y-missing",
        "a height without its line",
        "Write the line in this cell (C, C/G, bass edge, or y in mm), or take the row out.",
      );
      return null;
    }
    if (/^[+\-\u2212\u2013]?[\d.,]/.test(text) || text.includes("\uFFFD")) {
      const y = into.number(text, "y", line, at.line + 1);
      return typeof y === "number" ? { y, nameIndex: -1 } : null;
    }
    return { y: Number.NaN, nameIndex: into.nameIndex(text, { line, column: at.line + 1 }) };
  }

  function markIn(cell: string, line: number): Mark | null | "unknown" {
    const text = cell.trim().toLowerCase().replace(/\s+/g, " ");
    if (text === "") return null;
    if (text === "check") return "check";
    if (text === "lowest near here" || text === "lowest") return "lowest";
    faults.add(
      { line, column: at.mark + 1 },
      "mark-unknown",
      `the mark ${shownSafely(cell.trim())}`,
      "Write `lowest near here`, `check`, or leave the cell empty; remarks go in a column `note`.",
    );
    return "unknown";
  }

  return { row, setups: setups.labels };
}
