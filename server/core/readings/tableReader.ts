/**
 * A file of the bench, in pieces cut anywhere -> its `#` lines, its header, and its rows, each with its line.
 *
 * Knows lines, quotes and delimiters; what the columns mean is for the sink. Blank lines are skipped, and so are rows
 * of nothing but delimiters. Whatever can't be taken apart becomes a fault, one line at a time.
 */
import { cellsInLine, type DelimitedRows, type Delimiter, delimitedRows, delimiterOf } from "./delimitedRows.ts";
import type { FaultList } from "./faultList.ts";
import { fileLines, type NotText } from "./fileLines.ts";
import { commentInLine } from "./settingLine.ts";
import { shownSafely } from "./shownSafely.ts";

export type Header = { readonly cells: readonly string[]; readonly line: number; readonly delimiter: Delimiter };

export type TableSink = {
  /** A `#` line; `header` is null above the header. */
  comment(text: string, line: number, header: Header | null): void;
  /** False: the header can't be used, so that rows under it mean nothing. */
  header(header: Header): boolean;
  /** False: the rows that follow mean nothing any more. */
  row(cells: readonly string[], line: number): boolean;
};

export type TableReader = {
  push(chunk: Uint8Array): void;
  finish(): { readonly header: Header | null; readonly notText: NotText | null };
};

export function tableReader(faults: FaultList, sink: TableSink): TableReader {
  let header: Header | null = null;
  let rows: DelimitedRows | null = null;
  let ended = false;

  const lines = fileLines({
    line(text, line) {
      if (ended || isBlank(text)) return;
      const comment = commentInLine(text);
      if (comment !== null) sink.comment(comment, line, header);
      else if (header === null) readHeader(text, line);
      else readRow(text, line);
    },
    tooLong(beginning, line) {
      if (ended) return;
      rows?.flush();
      faults.add(
        { line, column: null },
        "line-too-long",
        `a line of more than 100,000 characters, beginning ${shownSafely(beginning)}`,
        "Put each row of the table on a line of its own; check that this file is a table of readings.",
      );
      if (header === null) ended = true;
    },
  });

  function readHeader(text: string, line: number): void {
    // Some spreadsheets announce the delimiter on a line of its own; the header shows it anyway.
    if (/^sep=.$/i.test(text.trim())) return;
    ended = true;
    const delimiter = delimiterOf(text);
    if (delimiter === null && !hasOddQuotes(text)) {
      faults.add(
        { line, column: null },
        "header-one-column",
        `the header ${shownSafely(text.trim())} without comma, semicolon or tab`,
        "Separate the columns by commas, semicolons or tabs, header and rows alike (blanks don't separate); begin a line of settings or remarks with #.",
      );
      return;
    }
    const cells = delimiter === null || hasOddQuotes(text) ? null : cellsInLine(text, delimiter);
    if (delimiter === null || cells === null) {
      addBroken(text, line);
      return;
    }
    header = { cells: cells.map((cell) => cell.trim()), line, delimiter };
    ended = !sink.header(header);
    rows = delimitedRows(delimiter, {
      row(rowCells, rowLine) {
        if (!ended && !rowCells.every(isBlank)) ended = !sink.row(rowCells, rowLine);
      },
      broken: addBroken,
    });
  }

  function readRow(text: string, line: number): void {
    if (hasOddQuotes(text)) {
      rows?.flush();
      addBroken(text, line);
    } else rows?.add(text, line);
  }

  function addBroken(text: string, line: number): void {
    if (header !== null && ended) return;
    faults.add(
      { line, column: null },
      hasOddQuotes(text) ? "quote-open" : "quote-misplaced",
      `${hasOddQuotes(text) ? "a quote opened and not closed" : "a quote in the middle of a cell"} in ${shownSafely(text.trim())}`,
      'Remove the quotes (") from this line: numbers need none, and inch marks belong in a line `# unit: in` above the header.',
    );
  }

  return {
    push: lines.push,
    finish() {
      const notText = lines.finish();
      rows?.flush();
      return { header, notText };
    },
  };
}

function isBlank(text: string): boolean {
  return text.trim() === "";
}

function hasOddQuotes(text: string): boolean {
  let odd = false;
  for (let at = text.indexOf('"'); at >= 0; at = text.indexOf('"', at + 1)) odd = !odd;
  return odd;
}
