/** An instrument's story on one page. */
import { element, fill } from "../views/element.ts";
import { bdi } from "../views/recordWords.ts";
import type { Shell } from "./shell.ts";

export async function openStory({ main }: Shell, number: string): Promise<void> {
  fill(main, element("h1", { class: "page-name" }, bdi(number)));
}
