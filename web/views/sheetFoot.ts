/**
 * The foot of the printed sheet: from what, how and when it came, and two lines for hands to sign on.
 *
 * Words -> HTML, on paper only. The day is the one on which it is printed.
 */
import { element, fill } from "./element.ts";

export function drawSheetFoot(target: HTMLElement, words: readonly string[], day: Date): void {
  const printed = `printed ${day.toLocaleDateString("en-GB", { day: "numeric", month: "long", year: "numeric" })}`;
  fill(
    target,
    element("p", { class: "from" }, [...words, printed].join(" · ")),
    element(
      "div",
      { class: "hands" },
      element("p", { class: "hand" }, "Maker"),
      element("p", { class: "hand" }, "Customer"),
    ),
  );
}
