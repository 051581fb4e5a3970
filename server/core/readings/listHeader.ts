/**
 * The header of a list -> which cell of a row holds what; every column must be known, and there once.
 */
import type { ColumnName } from "./columnHeading.ts";
import type { FaultList } from "./faultList.ts";
import { type HeadedColumns, lengthColumn } from "./headedColumns.ts";
import type { LengthColumn } from "./readingsFile.ts";
import { shownSafely } from "./shownSafely.ts";

export const listColumns = "x, y (or line), height, and if wanted setup, mark, note";

/** Cells are counted from 0 here; −1: there is no such column. */
export type ListLayout = {
  readonly layout: "list";
  readonly x: LengthColumn;
  /** Null where no column says where across: enough for a rail, not for a board. */
  readonly y: LengthColumn | null;
  readonly height: LengthColumn;
  readonly headedDepth: boolean;
  readonly cells: {
    readonly x: number;
    readonly y: number;
    readonly line: number;
    readonly height: number;
    readonly setup: number;
    readonly mark: number;
  };
  readonly width: number;
  /** Cells that a row may not leave off at its end. */
  readonly leastWidth: number;
};

const notOfList: ReadonlySet<ColumnName> = new Set(["side", "template", "error", "u"]);

export function listHeader(columns: HeadedColumns, faults: FaultList): ListLayout {
  const { cells, headings, place } = columns;
  const found = new Map<ColumnName, number>();
  headings.forEach((heading, i) => {
    const name = heading?.name === "depth" ? "height" : heading?.name;
    if (name === undefined || notOfList.has(name)) {
      const saw = cells[i] === "" ? "a column without a name" : `the column ${shownSafely(cells[i]!)}`;
      faults.add(
        place(i),
        "column-unknown",
        saw,
        `A list has the columns ${listColumns}: correct the name, or take the column out.`,
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

  const cell = (name: ColumnName) => found.get(name) ?? -1;
  const seen = `the header ${columns.inWords}`;
  if (headings.every((heading) => heading !== null)) {
    for (const name of ["x", "height"] as const) {
      if (!found.has(name))
        faults.add(
          place(),
          "column-missing",
          `${seen} without a column ${name}`,
          `Add the column ${name}: a list has the columns ${listColumns}.`,
        );
    }
  }
  if (found.has("y") && found.has("line")) {
    faults.add(
      place(cell("line")),
      "y-and-line",
      "a column y and a column line",
      "Keep one of the two: both say where across the board the reading was taken.",
    );
  }

  const across = found.has("y") ? cell("y") : cell("line");
  return {
    layout: "list",
    x: lengthColumn(columns, cell("x"), faults),
    y: across < 0 ? null : lengthColumn(columns, across, faults),
    height: lengthColumn(columns, cell("height"), faults),
    headedDepth: headings.some((heading) => heading?.name === "depth"),
    cells: {
      x: cell("x"),
      y: cell("y"),
      line: cell("line"),
      height: cell("height"),
      setup: cell("setup"),
      mark: cell("mark"),
    },
    width: cells.length,
    leastWidth: Math.max(cell("x"), across, cell("height"), cell("setup")) + 1,
  };
}
