/**
 * A thickness file (x, side, thickness, optional y) -> what is written in it, with every fault its text can show.
 *
 * Thickness and places are in mm always; a decimal comma is fine where semicolons or tabs separate. Settings belong in
 * the readings file.
 */
import type { Fault } from "../fault.ts";
import { type FaultList, faultList } from "./faultList.ts";
import { secondHeader } from "./secondHeader.ts";
import { settingInLine } from "./settingLine.ts";
import { shownSafely } from "./shownSafely.ts";
import { type Header, type TableSink, tableReader } from "./tableReader.ts";
import { type ThicknessColumns, thicknessHeader } from "./thicknessHeader.ts";
import { thicknessRow, type WrittenThickness } from "./thicknessRow.ts";

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
      columns = thicknessHeader(found, faults);
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
