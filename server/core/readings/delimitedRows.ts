/**
 * Lines -> rows of cells, a few thousand lines at a time, such that a row always belongs to exactly one line.
 *
 * A stray quote could make a parser run on over line ends. So a batch is believed only if it yields one row a line
 * and no complaint; otherwise its lines are parsed one by one, and only the bad one is told.
 */
import Papa from "papaparse";

const linesAtATime = 2_000;

export type Delimiter = "," | ";" | "\t";

export type RowSink = {
  row(cells: readonly string[], line: number): void;
  /** A quote opened and not closed, or standing where none can. */
  broken(text: string, line: number): void;
};

export type DelimitedRows = { add(text: string, line: number): void; flush(): void };

export function delimitedRows(delimiter: Delimiter, sink: RowSink): DelimitedRows {
  let texts: string[] = [];
  let lines: number[] = [];

  function flush(): void {
    const batch = texts;
    const numbers = lines;
    texts = [];
    lines = [];
    const rows = rowsIn(batch.join("\n"), delimiter);
    if (rows !== null && rows.length === batch.length) {
      rows.forEach((cells, i) => {
        sink.row(cells, numbers[i]!);
      });
      return;
    }
    batch.forEach((text, i) => {
      const cells = cellsInLine(text, delimiter);
      if (cells === null) sink.broken(text, numbers[i]!);
      else sink.row(cells, numbers[i]!);
    });
  }

  return {
    add(text, line) {
      texts.push(text);
      lines.push(line);
      if (texts.length === linesAtATime) flush();
    },
    flush,
  };
}

/** The cells of one line; null where its quotes don't pair. */
export function cellsInLine(text: string, delimiter: Delimiter): readonly string[] | null {
  return rowsIn(text, delimiter)?.[0] ?? null;
}

/** Null where the parser complains. */
function rowsIn(text: string, delimiter: Delimiter): readonly (readonly string[])[] | null {
  const parsed = Papa.parse<string[]>(text, { delimiter, newline: "\n" });
  return parsed.errors.length === 0 ? parsed.data : null;
}

/**
 * The delimiter of a header: tab or semicolon where there is one (then commas may be decimal commas), else comma;
 * null where none of the three stands in it. What is between quotes doesn't count.
 */
export function delimiterOf(header: string): Delimiter | null {
  const bare = header.replace(/"[^"]*"/g, "");
  const tabs = bare.split("\t").length - 1;
  const semicolons = bare.split(";").length - 1;
  if (tabs > 0 || semicolons > 0) return tabs >= semicolons ? "\t" : ";";
  return bare.includes(",") ? "," : null;
}
