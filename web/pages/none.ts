/** An address that means no page: said, with the ways that there are. */
import { instrumentsPage } from "../views/addresses.ts";
import { element, fill } from "../views/element.ts";
import type { Shell } from "./shell.ts";

export function openNone({ base, main }: Shell): void {
  document.title = "No such page · Boardtrue";
  fill(
    main,
    element("h1", { class: "page-name" }, "No such page"),
    element(
      "p",
      { class: "said" },
      "Nothing stands at this address. ",
      element("a", { href: instrumentsPage(base) }, "To the instruments"),
    ),
  );
}
