/**
 * Rows of a grid: one crossline a row, one reading a cell. Empty cells are missing readings.
 */
import type { GridLayout } from "./gridHeader.ts";
import { hasItsCells } from "./rowWidth.ts";
import type { Header } from "./tableReader.ts";
import type { WrittenReadings } from "./writtenReadings.ts";

export type GridRows = { row(cells: readonly string[], line: number): void; setups(): readonly string[] };

export function gridRows(layout: GridLayout, header: Header, into: WrittenReadings): GridRows {
  const widths = { width: layout.width, leastWidth: layout.width };
  const lines = layout.lines.map(({ cell, name }) => {
    if (name !== null)
      return { cell, y: Number.NaN, nameIndex: into.nameIndex(name, { line: header.line, column: cell + 1 }) };
    const y = into.number(header.cells[cell]!, "y", header.line, cell + 1);
    if (typeof y !== "number") throw new Error("a line of the grid that the header has let pass is no number");
    return { cell, y, nameIndex: -1 };
  });

  function row(cells: readonly string[], line: number): void {
    if (!hasItsCells(cells, line, widths, header, into.faults)) return;
    const x = into.number(cells[0]!, "x", line, 1);
    if (x === "empty") {
      into.faults.add(
        { line, column: 1 },
        "x-missing",
        "heights without their x",
        "Write the crossline's x in the first cell, or take the row out.",
      );
    }
    for (const { cell, y, nameIndex } of lines) {
      const height = into.number(cells[cell]!, "height", line, cell + 1);
      if (typeof height !== "number" || typeof x !== "number") continue;
      into.readings.add({ row: line, column: cell + 1, x, y, nameIndex, height, mark: null, setup: 0 });
    }
  }

  return { row, setups: () => [] };
}
