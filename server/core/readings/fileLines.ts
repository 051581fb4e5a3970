/**
 * Bytes of a file, in pieces cut anywhere -> its physical lines, counted from 1.
 *
 * Lines end with LF, CR LF or a lone CR. The text is UTF-8; a byte order mark is dropped; bytes that are no UTF-8
 * become U+FFFD for the cells to complain of. What is no text at all (UTF-16, a workbook, anything with a NUL byte)
 * ends the reading with one word on how to save it instead. An endless line is told by its beginning and never kept.
 */

/** A million-cell line is no table; a thousand-column grid still passes. */
const longestLine = 100_000;
/** How much of a line that is too long is kept, to be shown. */
const keptOfLongLine = 80;
/** Decoded at a time, so that a big file never stands in memory twice. */
const pieceBytes = 65_536;
/** Enough of the beginning to tell what kind of file it is. */
const openingBytes = 4;

export type LineSink = {
  line(text: string, line: number): void;
  tooLong(beginning: string, line: number): void;
};

/** Why the bytes can't be text: what was seen, at which line, and what to do. */
export type NotText = { readonly line: number | null; readonly saw: string; readonly remedy: string };

export type FileLines = { push(chunk: Uint8Array): void; finish(): NotText | null };

export function fileLines(sink: LineSink): FileLines {
  const decoder = new TextDecoder("utf-8");
  const opening: number[] = [];
  let opened = false;
  let notText: NotText | null = null;
  let line = 1;
  let carried = "";
  let beginningOfLongLine: string | null = null;
  let afterCarriageReturn = false;

  function open(): void {
    opened = true;
    notText = kindOfFile(opening);
    decode(Uint8Array.from(opening));
  }

  function decode(bytes: Uint8Array): void {
    for (let from = 0; from < bytes.length && notText === null; from += pieceBytes) {
      take(decoder.decode(bytes.subarray(from, from + pieceBytes), { stream: true }));
    }
  }

  function take(text: string): void {
    const nul = text.indexOf("\0");
    split(nul < 0 ? text : text.slice(0, nul));
    if (nul >= 0) notText = { line, saw: "a NUL byte: this is no plain text", remedy: saveAsText };
  }

  function split(text: string): void {
    let from = 0;
    if (afterCarriageReturn && text.length > 0) {
      afterCarriageReturn = false;
      if (text.startsWith("\n")) from = 1;
    }
    const lineEnd = /\r\n|\n|\r/g;
    lineEnd.lastIndex = from;
    for (let end = lineEnd.exec(text); end !== null; end = lineEnd.exec(text)) {
      endLine(text.slice(from, end.index));
      from = lineEnd.lastIndex;
      // A CR at the very end of a piece may be half of a CR LF.
      afterCarriageReturn = end[0] === "\r" && from === text.length;
    }
    carry(text.slice(from));
  }

  function carry(text: string): void {
    if (beginningOfLongLine !== null) return;
    carried += text;
    if (carried.length > longestLine) {
      beginningOfLongLine = carried.slice(0, keptOfLongLine);
      carried = "";
    }
  }

  function endLine(text: string): void {
    carry(text);
    if (beginningOfLongLine === null) sink.line(carried, line);
    else sink.tooLong(beginningOfLongLine, line);
    carried = "";
    beginningOfLongLine = null;
    line += 1;
  }

  return {
    push(chunk) {
      let from = 0;
      while (!opened && from < chunk.length) {
        opening.push(chunk[from]!);
        from += 1;
        if (opening.length === openingBytes) open();
      }
      decode(from === 0 ? chunk : chunk.subarray(from));
    },
    finish() {
      if (!opened) open();
      if (notText !== null) return notText;
      take(decoder.decode());
      if (carried !== "" || beginningOfLongLine !== null) endLine("");
      return null;
    },
  };
}

const saveAsText =
  "Save the table as CSV with UTF-8 encoding (in a spreadsheet: Save as, CSV UTF-8), and give that file.";

function kindOfFile(opening: readonly number[]): NotText | null {
  const [a, b, c, d] = opening;
  const is = (...bytes: number[]) => bytes.every((byte, i) => byte === opening[i]);
  const seen = (saw: string): NotText => ({ line: null, saw, remedy: saveAsText });
  if (is(0xff, 0xfe) || is(0xfe, 0xff)) return seen("a file in UTF-16 encoding");
  if (opening.length === openingBytes && ((a === 0 && c === 0) || (b === 0 && d === 0))) {
    return seen("a file in UTF-16 encoding, or no text at all");
  }
  if (is(0x50, 0x4b, 0x03, 0x04)) return seen("a spreadsheet workbook or a zip archive");
  if (is(0x25, 0x50, 0x44, 0x46)) return seen("a PDF document");
  return null;
}
