/** The due list. */
import { element, fill } from "../views/element.ts";
import type { Shell } from "./shell.ts";

export async function openDue({ main }: Shell): Promise<void> {
  fill(main, element("h1", { class: "page-name" }, "Due"));
}
