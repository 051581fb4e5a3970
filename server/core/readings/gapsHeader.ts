/**
 * The header of a file of gaps -> which cell of a row holds what; every column must be known, and there once.
 *
 *   line, x, gap          under a straightedge laid along a line
 *   x, y, gap, template   under a template of that radius laid across; `line` may stand for y
 *
 * One file may hold both: rows without a template are the straightedge's. Then it may have y and line.
 */
import type { ColumnName } from "./columnHeading.ts";
import type { FaultList } from "./faultList.ts";
import { type HeadedColumns, lengthColumn } from "./headedColumns.ts";
import type { LengthColumn } from "./readingsFile.ts";
import { shownSafely } from "./shownSafely.ts";

const gapColumns = "line, x, gap (under a straightedge) or x, y, gap, template (under a template)";

/** Cells are counted from 0 here; −1: there is no such column. */
export type GapsLayout = {
  readonly layout: "gaps";
  readonly x: LengthColumn;
  readonly y: LengthColumn;
  readonly height: LengthColumn;
  readonly template: LengthColumn | null;
  readonly cells: {
    readonly x: number;
    readonly y: number;
    readonly line: number;
    readonly gap: number;
    readonly template: number;
  };
  readonly width: number;
  /** Cells that a row may not leave off at its end. */
  readonly leastWidth: number;
};

const known: ReadonlySet<ColumnName> = new Set(["x", "y", "line", "gap", "template", "note"]);

export function gapsHeader(columns: HeadedColumns, faults: FaultList): GapsLayout {
  const { cells, headings, place } = columns;
  const found = new Map<ColumnName, number>();
  headings.forEach((heading, i) => {
    const name = heading?.name;
    if (name === "height" || name === "depth") {
      faults.add(
        place(i),
        "gaps-and-heights",
        "heights and gaps in one file",
        "Give them as two files: heights are read from a rail, gaps under a straightedge or a template.",
      );
    } else if (name === undefined || !known.has(name)) {
      const saw = cells[i] === "" ? "a column without a name" : `the column ${shownSafely(cells[i]!)}`;
      faults.add(
        place(i),
        "column-unknown",
        saw,
        `A file of gaps has the columns ${gapColumns}, and if wanted note: correct the name, or take the column out.`,
      );
    } else if (found.has(name) && name !== "note") {
      faults.add(
        place(i),
        "column-twice",
        `a second column for ${name}: ${shownSafely(cells[i]!)}`,
        "Keep one of the two columns.",
      );
    } else found.set(name, i);
  });
  if (headings.every((heading) => heading !== null)) tellMissing(found, columns, faults);

  const cell = (name: ColumnName) => found.get(name) ?? -1;
  return {
    layout: "gaps",
    x: lengthColumn(columns, cell("x"), faults),
    y: lengthColumn(columns, found.has("y") ? cell("y") : cell("line"), faults),
    height: lengthColumn(columns, cell("gap"), faults),
    template: found.has("template") ? lengthColumn(columns, cell("template"), faults) : null,
    cells: { x: cell("x"), y: cell("y"), line: cell("line"), gap: cell("gap"), template: cell("template") },
    width: cells.length,
    leastWidth: Math.max(cell("x"), cell("gap"), Math.min(cell("y"), cell("line"))) + 1,
  };
}

function tellMissing(found: ReadonlyMap<ColumnName, number>, columns: HeadedColumns, faults: FaultList): void {
  const seen = `the header ${columns.inWords}`;
  if (!found.has("x")) {
    faults.add(columns.place(), "column-missing", `${seen} without a column x`, `Gaps have the columns ${gapColumns}.`);
  }
  if (!found.has("y") && !found.has("line")) {
    faults.add(
      columns.place(),
      "column-missing",
      `${seen} with neither a column line nor a column y`,
      `Say along which line the straightedge lay, or where across the gap under the template was: ${gapColumns}.`,
    );
  }
  if (found.has("y") && found.has("line") && !found.has("template")) {
    faults.add(
      columns.place(found.get("line")),
      "y-and-line",
      "a column y and a column line",
      "Keep one of the two: both say along which line the straightedge lay.",
    );
  }
}
