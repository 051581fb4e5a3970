/** One visit's sheet. */
import { element, fill } from "../views/element.ts";
import { bdi } from "../views/recordWords.ts";
import type { Shell } from "./shell.ts";

export async function openVisit({ main }: Shell, number: string, _id: string): Promise<void> {
  fill(main, element("h1", { class: "page-name" }, bdi(number)));
}
