/**
 * HTML elements in one expression: tag, attributes, children. Strings become text, never markup.
 */
type Child = Node | string | null;
type Attributes = Readonly<Record<string, string | number | boolean | null>>;

export function element<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  attributes: Attributes = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[Tag] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === false) continue;
    made.setAttribute(name, value === true ? "" : String(value));
  }
  made.append(...children.filter((child) => child !== null));
  return made;
}

/** Puts new content in place of the old. */
export function fill(target: Element, ...children: readonly Child[]): void {
  target.replaceChildren(...children.filter((child) => child !== null));
}

/** A table with a caption, column heads and rows; cells whose head ends with "mm" are set as numbers. */
export function table(
  caption: string,
  heads: readonly string[],
  rows: readonly HTMLTableRowElement[],
): HTMLTableElement {
  return element(
    "table",
    {},
    element("caption", {}, caption),
    element("thead", {}, element("tr", {}, ...heads.map((head) => element("th", { scope: "col" }, head)))),
    element("tbody", {}, ...rows),
  );
}

/** A row of a table; numbers are text already. */
export const row = (...cells: readonly Child[]): HTMLTableRowElement =>
  element("tr", {}, ...cells.map((cell) => element("td", {}, cell)));

/** Names and what they stand for. */
export const list = (entries: readonly (readonly [name: string, text: string])[]): HTMLDListElement =>
  element("dl", {}, ...entries.flatMap(([name, text]) => [element("dt", {}, name), element("dd", {}, text)]));
