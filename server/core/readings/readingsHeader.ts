/**
 * The header of a readings file -> how its rows are laid out.
 *
 * A column of heights makes it a list; otherwise the first column holds the crosslines and every further one is a
 * line of a grid, named or at a y. Anything else (gaps, thickness, no header at all, a misspelled column) is a fault.
 */
import { settingTable } from "../board/settings.ts";
import { type ColumnHeading, type ColumnName, columnHeading } from "./columnHeading.ts";
import type { FaultList } from "./faultList.ts";
import { numberInCell } from "./numberInCell.ts";
import type { LengthColumn } from "./readingsFile.ts";
import { shownSafely } from "./shownSafely.ts";
import type { Header } from "./tableReader.ts";

/** Cells are counted from 0 here; −1: there is no such column. */
export type ListLayout = {
  readonly layout: "list";
  readonly x: LengthColumn;
  readonly y: LengthColumn;
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

/** A line of a grid: its cell, and its name, or null where the heading is a y. */
export type GridLine = { readonly cell: number; readonly name: string | null };

export type GridLayout = {
  readonly layout: "grid";
  readonly x: LengthColumn;
  readonly lines: readonly GridLine[];
  readonly width: number;
};

export type ReadingsLayout = ListLayout | GridLayout;

const listColumns = "x, y (or line), height, and if wanted setup, mark, note";

export function readingsHeader(header: Header, faults: FaultList): ReadingsLayout | null {
  const cells = withoutEmptyEnd(header.cells);
  const headings = cells.map(columnHeading);
  const has = (name: ColumnName) => headings.some((heading) => heading?.name === name);
  const whole = { line: header.line, column: null };

  if (has("gap")) {
    faults.add(
      whole,
      "gaps-not-read",
      "a file of gaps under a straightedge or template",
      "This version reads heights: give a list with the columns x, y, height, or a grid.",
    );
    return null;
  }
  if (has("thickness")) {
    faults.add(
      whole,
      "thickness-file",
      "a file of thicknesses where readings belong",
      "Give this file as the thickness file, and a list or grid of heights as the readings.",
    );
    return null;
  }
  if (numberInCell(cells[0] ?? "", header.delimiter !== ",").outcome === "number") {
    faults.add(
      whole,
      "header-missing",
      `numbers where the header belongs: ${shownSafely(header.cells.join(header.delimiter))}`,
      "Put a header above the rows: `x,y,height` for a list, or `x` and the names of the lines for a grid.",
    );
    return null;
  }
  const key = (cells[0] ?? "").toLowerCase().replace(/[\s-]+/g, "_");
  if (settingTable.some((setting) => setting.key === key)) {
    faults.add(
      whole,
      "setting-without-hash",
      `a setting where the header belongs: ${shownSafely(header.cells.join(header.delimiter))}`,
      `Write settings as \`# ${key}: …\`, each on a line of its own above the header.`,
    );
    return null;
  }
  const before = faults.total();
  const isList = has("height") || has("depth") || has("y") || has("line");
  const layout = isList ? listLayout(header, cells, headings, faults) : gridLayout(header, cells, headings, faults);
  return faults.total() === before ? layout : null;
}

function listLayout(
  header: Header,
  cells: readonly string[],
  headings: readonly (ColumnHeading | null)[],
  faults: FaultList,
): ListLayout {
  const at = (column: number) => ({ line: header.line, column: column + 1 });
  const found = new Map<ColumnName, number>();
  headings.forEach((heading, i) => {
    const name = heading?.name === "depth" ? "height" : heading?.name;
    if (name === undefined || name === "side" || name === "template") {
      const saw = cells[i] === "" ? "a column without a name" : `the column ${shownSafely(cells[i]!)}`;
      faults.add(
        at(i),
        "column-unknown",
        saw,
        `A list has the columns ${listColumns}: correct the name, or take the column out.`,
      );
    } else if (found.has(name) && name !== "note") {
      faults.add(
        at(i),
        "column-twice",
        `a second column for ${name}: ${shownSafely(cells[i]!)}`,
        "Keep one of the two columns.",
      );
    } else found.set(name, i);
  });

  const cell = (name: ColumnName) => found.get(name) ?? -1;
  const whole = { line: header.line, column: null };
  const seen = `the header ${shownSafely(header.cells.join(header.delimiter))}`;
  if (headings.every((heading) => heading !== null)) {
    for (const name of ["x", "height"] as const) {
      if (!found.has(name))
        faults.add(
          whole,
          "column-missing",
          `${seen} without a column ${name}`,
          `Add the column ${name}: a list has the columns ${listColumns}.`,
        );
    }
    if (!found.has("y") && !found.has("line")) {
      faults.add(
        whole,
        "column-missing",
        `${seen} with neither a column y nor a column line`,
        "Add a column y (mm from the centreline, treble positive) or a column line (C, G, C/G, bass edge).",
      );
    }
  }
  if (found.has("y") && found.has("line")) {
    faults.add(
      at(cell("line")),
      "y-and-line",
      "a column y and a column line",
      "Keep one of the two: both say where across the board the reading was taken.",
    );
  }

  const across = found.has("y") ? cell("y") : cell("line");
  return {
    layout: "list",
    x: lengthColumn(header, cells, headings, cell("x"), faults),
    y: lengthColumn(header, cells, headings, across, faults),
    height: lengthColumn(header, cells, headings, cell("height"), faults),
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

function gridLayout(
  header: Header,
  cells: readonly string[],
  headings: readonly (ColumnHeading | null)[],
  faults: FaultList,
): GridLayout {
  const at = (column: number) => ({ line: header.line, column: column + 1 });
  const lines: GridLine[] = [];
  const met = new Set<string>();
  for (let i = 1; i < cells.length; i++) {
    const text = cells[i]!.replace(/\s+/g, " ");
    const number = numberInCell(text, header.delimiter !== ",");
    const known = headings[i]?.name;
    if (text === "") {
      faults.add(
        at(i),
        "column-without-name",
        "a column without a name",
        "Head every column of a grid with its line: a name (C, C/G, bass edge) or y in mm.",
      );
    } else if (known !== undefined) {
      faults.add(
        at(i),
        "column-unknown",
        `the column ${shownSafely(text)} in a grid`,
        `A grid has the crosslines x and then lines only. For more, write a list: ${listColumns}.`,
      );
    } else if (number.outcome === "none" && /^[+\-\u2212\u2013]?[\d.,]/.test(text)) {
      faults.add(at(i), number.code, number.saw, number.remedy);
    } else {
      const isY = number.outcome === "number";
      const key = isY ? String(number.value) : text.toLowerCase();
      if (met.has(key))
        faults.add(
          at(i),
          "column-twice",
          `the line ${shownSafely(text)} a second time`,
          "Keep one column for each line; for repeats, repeat the row or write a list.",
        );
      met.add(key);
      lines.push({ cell: i, name: isY ? null : text });
    }
  }
  const x = lengthColumn(header, cells, headings, 0, faults);
  if (lines.length === 0 && cells.length < 2) {
    faults.add(
      { line: header.line, column: null },
      "column-missing",
      "a grid without lines",
      "Head the further columns with their lines: names (C, G) or y in mm.",
    );
  }
  return { layout: "grid", x, lines, width: cells.length };
}

function lengthColumn(
  header: Header,
  cells: readonly string[],
  headings: readonly (ColumnHeading | null)[],
  cell: number,
  faults: FaultList,
): LengthColumn {
  const place = { line: header.line, column: cell < 0 ? null : cell + 1 };
  const heading = cells[cell] ?? "";
  const unitMm = headings[cell]?.unitMm ?? null;
  if (unitMm !== "unknown") return { place, heading, unitMm };
  faults.add(
    place,
    "unit-unknown",
    `the unit in the heading ${shownSafely(heading)}`,
    "Convert the column to mm, 0.01mm, in or thou, and name that unit in the heading.",
  );
  return { place, heading, unitMm: null };
}

function withoutEmptyEnd(cells: readonly string[]): readonly string[] {
  return cells.slice(0, cells.findLastIndex((cell) => cell !== "") + 1);
}
