/**
 * A table as CSV that a spreadsheet may open without harm (RFC 4180: commas, CR LF, quotes where needed).
 *
 * In: a header and rows of texts, numbers and blanks. Out: one text; numbers stay numbers, negative ones too.
 *
 * A spreadsheet takes a cell that begins with = + - @ (or their full-width forms) for a formula, and a workshop's note might begin so, or
 * somebody might have written it on purpose. Such a text gets an apostrophe in front, and so does what would begin a cell or a line
 * of its own where a spreadsheet parts cells at semicolons or tabs instead. The packer's own rule leaves texts of several lines
 * as they are. Source: OWASP, CSV Injection (CWE-1236).
 */
import Papa from "papaparse";

export type Cell = string | number | null;

export function spreadsheetCsv(header: readonly string[], rows: readonly (readonly Cell[])[]): string {
  const cells = rows.map((row) => row.map((cell) => (typeof cell === "string" ? harmless(cell) : cell)));
  return `${Papa.unparse([[...header], ...cells], { newline: "\r\n" })}\r\n`;
}

/** "=1+1" -> "'=1+1"; "see; -0.2" -> "see; '-0.2"; "C-07" stays. */
function harmless(text: string): string {
  return text
    .replace(/^(?=[\t\r\n\0])/, "'")
    .replace(/(^|[;\t\r\n])([\s"]*)(?=[=+\-@\uFF1D\uFF0B\uFF0D\uFF20])/g, "$1$2'");
}

/** A length or its u for a cell: 0.0001 mm is a hundredth of the finest gauge's step. */
export function tenThousandths(lengthMm: number | null | undefined): number | null {
  return lengthMm === null || lengthMm === undefined ? null : Number(lengthMm.toFixed(4)) + 0;
}
