/**
 * A readings file, list, grid or gaps -> what is written in it, with every fault that its text alone can show.
 *
 * Bytes may come in pieces cut anywhere; the answer is the same. Empty heights are missing readings. See
 * columnHeading.ts for the names of columns, numberInCell.ts for numbers, settingLine.ts for `#` lines.
 */
import type { SettingEntry } from "../board/settings.ts";
import { settingTable } from "../board/settingTable.ts";
import { type FaultList, faultList } from "./faultList.ts";
import { gapRows, type WrittenGap } from "./gapRows.ts";
import { gridRows } from "./gridRows.ts";
import { listRows } from "./listRows.ts";
import type { ReadingsFile } from "./readingsFile.ts";
import { type ReadingsLayout, readingsHeader } from "./readingsHeader.ts";
import { secondHeader } from "./secondHeader.ts";
import { settingInLine } from "./settingLine.ts";
import { shownSafely } from "./shownSafely.ts";
import { type Header, type TableSink, tableReader } from "./tableReader.ts";
import { type WrittenReadings, writtenReadings } from "./writtenReadings.ts";

export type { ReadingsFile } from "./readingsFile.ts";

/** The whole file at once. */
export function readReadingsFile(content: string | Uint8Array): ReadingsFile {
  const reader = readingsFileReader();
  reader.push(typeof content === "string" ? new TextEncoder().encode(content) : content);
  return reader.finish();
}

export type ReadingsFileReader = {
  push(chunk: Uint8Array): void;
  /** The settings met above the header so far. */
  settings(): readonly SettingEntry[];
  finish(): ReadingsFile;
};

/** The file piece by piece. */
export function readingsFileReader(): ReadingsFileReader {
  const faults = faultList("readings");
  const entries: SettingEntry[] = [];
  const table = readingsTable(entries, faults);
  const reader = tableReader(faults, table);

  return {
    push: reader.push,
    settings: () => entries,
    finish() {
      const { notText } = reader.finish();
      if (notText !== null) {
        const only = faultList("readings");
        only.add({ line: notText.line, column: null }, "not-text", notText.saw, notText.remedy);
        return readingsFile([], null, only);
      }
      const read = table.read();
      if (faults.total() === 0 && (read === null || countOf(read) === 0)) tellNothing(entries, read !== null, faults);
      return readingsFile(entries, read, faults);
    },
  };
}

/** What stands under a header that could be read. */
type ReadTable = { readonly layout: ReadingsLayout; readonly written: WrittenReadings; readonly rows: Rows };
type Rows = {
  row(cells: readonly string[], line: number): void;
  setups(): readonly string[];
  gaps?(): readonly WrittenGap[];
};

function readingsTable(entries: SettingEntry[], faults: FaultList): TableSink & { read(): ReadTable | null } {
  let header: Header | null = null;
  let read: ReadTable | null = null;

  return {
    comment(text, line, above) {
      const setting = settingInLine(text);
      if (setting === null) return;
      if (above === null) addSetting({ ...setting, where: "readings", line }, entries, faults);
      else if (settingTable.some(({ key }) => key === setting.key)) tellLateSetting(text, line, faults);
    },
    header(found) {
      const layout = readingsHeader(found, faults);
      if (layout === null) return false;
      const written = writtenReadings(found.delimiter !== ",", faults);
      const rows = rowsOf(layout, found, written);
      header = found;
      read = { layout, written, rows };
      return true;
    },
    row(cells, line) {
      if (header === null || read === null) throw new Error("a row without a header");
      const again = secondHeader(cells, header);
      if (again === null) read.rows.row(cells, line);
      else tellSecondHeader(cells.join(header.delimiter), line, again, faults);
      return again !== "other";
    },
    read: () => read,
  };
}

function countOf({ written, rows }: ReadTable): number {
  return rows.gaps?.().length ?? written.readings.count;
}

function rowsOf(layout: ReadingsLayout, header: Header, into: WrittenReadings): Rows {
  if (layout.layout === "gaps") return gapRows(layout, header, into);
  return layout.layout === "list" ? listRows(layout, header, into) : gridRows(layout, header, into);
}

/** There are some dozens of settings; a file of more lines than this has them for something else, and need not be kept. */
const mostSettings = 1_000;

function addSetting(entry: SettingEntry, entries: SettingEntry[], faults: FaultList): void {
  if (entries.length === mostSettings) {
    faults.add(
      { line: entry.line, column: null },
      "too-many-settings",
      `more than ${mostSettings} lines of settings`,
      "Say each setting once; write a remark without a colon.",
    );
  }
  if (entries.length <= mostSettings) entries.push(entry);
}

/** Under the header `#` begins a remark; but a setting that is not heeded there must not pass in silence. */
function tellLateSetting(text: string, line: number, faults: FaultList): void {
  faults.add(
    { line, column: null },
    "setting-after-header",
    `a setting under the header: ${shownSafely(text)}`,
    "Move this line above the header, or write it without a colon if it is a remark.",
  );
}

function tellSecondHeader(text: string, line: number, again: "same" | "other", faults: FaultList): void {
  const remedy = "One file holds one table: give the rows under this line as a file of their own";
  faults.add(
    { line, column: null },
    "second-header",
    `a second header: ${shownSafely(text)}`,
    again === "same" ? `${remedy}, or, if they belong to the same set-up, take this line out.` : `${remedy}.`,
  );
}

function tellNothing(entries: readonly SettingEntry[], hasHeader: boolean, faults: FaultList): void {
  if (hasHeader) {
    faults.add(
      { line: null, column: null },
      "no-readings",
      "a header and no readings under it",
      "Write the heights under the header, one reading a row (list) or one crossline a row (grid).",
    );
    return;
  }
  faults.add(
    { line: null, column: null },
    "empty-file",
    entries.length > 0 ? "settings and nothing else" : "nothing: the file is empty",
    "Write a header, `x,y,height` for a list or `x` and the names of the lines for a grid, and the readings under it.",
  );
}

function readingsFile(entries: readonly SettingEntry[], read: ReadTable | null, faults: FaultList): ReadingsFile {
  const { layout, written, rows } = read ?? { layout: null, written: writtenReadings(false, faults), rows: null };
  const list = layout?.layout === "grid" ? null : layout;
  return {
    entries,
    layout: layout?.layout ?? null,
    columns: { x: layout?.x ?? null, y: list?.y ?? null, height: list?.height ?? null },
    headedDepth: layout?.layout === "list" && layout.headedDepth,
    setups: rows?.setups() ?? [],
    names: written.names,
    readings: written.readings,
    gaps: rows?.gaps?.() ?? null,
    templateColumn: layout?.layout === "gaps" ? layout.template : null,
    inMm: written.inMm,
    faults: faults.finish(),
  };
}
