/**
 * A table of words: a list of instruments or visits, whose cells may hold sentences. Words begin at the left and may break; on a narrow screen a
 * row stands as a paragraph, each cell with its head before it.
 *
 * In: caption, heads, and rows as cells in the order of the heads. Out: the table, and a way to add rows.
 */
import { element } from "./element.ts";

type Cell = Node | string;
export type WordTable = {
  readonly element: HTMLTableElement;
  readonly add: (rows: readonly (readonly Cell[])[]) => void;
};

export function wordTable(caption: string, heads: readonly string[]): WordTable {
  const body = element("tbody");
  const table = element(
    "table",
    { class: "words" },
    element("caption", {}, caption),
    element("thead", {}, element("tr", {}, ...heads.map((head) => element("th", { scope: "col" }, head)))),
    body,
  );
  return {
    element: table,
    add: (rows) =>
      body.append(
        ...rows.map((cells) =>
          element("tr", {}, ...cells.map((cell, i) => element("td", { "data-head": heads[i] ?? "" }, cell))),
        ),
      ),
  };
}
