/** A piece of somebody's file in a message: in quotes, and legible. `shownSafely("O.45")` is `"O.45"`. */
import { legible } from "../board/legible.ts";

export function shownSafely(text: string): string {
  return `"${legible(text)}"`;
}
