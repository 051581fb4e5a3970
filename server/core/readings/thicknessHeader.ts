/**
 * The header of a thickness file -> which cell of a row holds what.
 */
import type { ColumnName } from "./columnHeading.ts";
import type { FaultList } from "./faultList.ts";
import { headedColumns } from "./headedColumns.ts";
import { shownSafely } from "./shownSafely.ts";
import type { Header } from "./tableReader.ts";

/** Cells of the header, counted from 1; y null where there is no such column. */
export type ThicknessColumns = {
  readonly x: number;
  readonly side: number;
  readonly thickness: number;
  readonly y: number | null;
  /** How many columns have a heading. */
  readonly width: number;
};

const known: ReadonlySet<ColumnName> = new Set(["x", "side", "thickness", "y", "note"]);
const ofReadings: ReadonlySet<ColumnName> = new Set(["height", "depth", "gap"]);

export function thicknessHeader(header: Header, faults: FaultList): ThicknessColumns | null {
  const { cells, headings, place, inWords } = headedColumns(header);
  const before = faults.total();
  const found = new Map<ColumnName, number>();
  headings.forEach((heading, i) => {
    const saw = `the column ${shownSafely(cells[i]!)}`;
    if (heading !== null && ofReadings.has(heading.name)) {
      faults.add(
        place(i),
        "readings-file",
        saw,
        "Give a file of heights as the readings; a thickness file has the columns x, side, thickness.",
      );
    } else if (heading === null || !known.has(heading.name)) {
      faults.add(
        place(i),
        "column-unknown",
        saw,
        "A thickness file has the columns x, side, thickness, and if wanted y and note: correct the name, or take the column out.",
      );
    } else if (found.has(heading.name) && heading.name !== "note") {
      faults.add(
        place(i),
        "column-twice",
        `a second column for ${heading.name}: ${shownSafely(cells[i]!)}`,
        "Keep one of the two columns.",
      );
    } else if (heading.unitMm !== null && heading.unitMm !== 1) {
      faults.add(place(i), "unit-unknown", saw, "Convert the column to mm: a thickness file is in mm throughout.");
    } else found.set(heading.name, i + 1);
  });
  const x = found.get("x");
  const side = found.get("side");
  const thickness = found.get("thickness");
  if (faults.total() > before) return null;
  if (x === undefined || side === undefined || thickness === undefined) {
    faults.add(
      place(),
      "column-missing",
      `the header ${inWords}`,
      "Write the header `x,side,thickness` (if wanted also y) above the rows.",
    );
    return null;
  }
  return { x, side, thickness, y: found.get("y") ?? null, width: cells.length };
}
