/**
 * Which board this is, beside the headline: instrument, what was read, from which files, and what was changed by hand.
 *
 * Words -> HTML. What was changed by hand stands with a button that clears it; on paper the words stay and the button goes.
 */
import { element } from "./element.ts";

export type BoardWords = { readonly lines: readonly string[]; readonly changed: string };

export function boardHead({ lines, changed }: BoardWords, clear: () => void): HTMLElement {
  const clearButton = element("button", { type: "button", class: "clear-said screen-only" }, "clear");
  clearButton.addEventListener("click", clear);
  return element(
    "div",
    { class: "which-board" },
    ...lines.map((line) => element("span", {}, line)),
    changed === "" ? null : element("span", { class: "changed" }, `${changed} `, clearButton),
  );
}
