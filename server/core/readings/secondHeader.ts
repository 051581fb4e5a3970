/**
 * A header among the rows: two tables in one file. "same" as the one above, "other", or null for an ordinary row.
 */
import { columnHeading } from "./columnHeading.ts";
import type { Header } from "./tableReader.ts";

export function secondHeader(cells: readonly string[], header: Header): "same" | "other" | null {
  const first = cells[0] ?? "";
  if (/^\s*[\d+\-.,\u2212]/.test(first)) return null;
  if (header.cells.every((heading, i) => heading.toLowerCase() === (cells[i] ?? "").trim().toLowerCase()))
    return "same";
  const headings = cells.map(columnHeading);
  const known = headings.filter((heading) => heading !== null).length;
  return known >= 2 || headings[0]?.name === "x" ? "other" : null;
}
