/**
 * A table as text: columns as wide as their widest cell, numbers to the right. Out: lines to print, the first underlined.
 */
export type Cell = string | number;

export function tableText(title: string, header: readonly string[], rows: readonly (readonly Cell[])[]): string {
  const texts = [header, ...rows.map((row) => row.map(cellText))];
  const widths = header.map((_, column) => Math.max(...texts.map((row) => row[column]!.length)));
  const line = (row: readonly string[]): string =>
    row
      .map((text, column) => (column === 0 ? text.padEnd(widths[column]!) : text.padStart(widths[column]!)))
      .join("  ");
  const [head, ...body] = texts.map(line);
  return ["", title, head, "-".repeat(head!.length), ...body].join("\n");
}

/** Three figures; a dash where there is none. */
function cellText(cell: Cell): string {
  if (typeof cell === "string") return cell;
  if (!Number.isFinite(cell)) return "-";
  const decimals = Math.abs(cell) >= 100 ? 0 : Math.abs(cell) >= 10 ? 1 : 2;
  return cell.toFixed(decimals);
}

export const percent = (share: number): string => (Number.isNaN(share) ? "-" : `${(100 * share).toFixed(1)} %`);
export const micrometres = (mm: number): string => (Number.isNaN(mm) ? "-" : `${(1000 * mm).toFixed(1)}`);
/** "met" or "not met". */
export const goal = (met: boolean): string => (met ? "met" : "not met");
