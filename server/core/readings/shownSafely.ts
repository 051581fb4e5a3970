/**
 * A piece of somebody's file, fit to stand in a message: in quotes, short, with nothing in it that could upset a
 * terminal or a page. Control and invisible characters are shown by their code, e.g. U+0007.
 */
const longestQuote = 40;

/** `shownSafely("O.45")` is `"O.45"`; more than 40 characters are cut with "…". */
export function shownSafely(text: string): string {
  const short = Array.from(text.slice(0, 2 * longestQuote))
    .slice(0, longestQuote)
    .join("");
  const visible = short.replace(/[\p{C}\p{Zl}\p{Zp}]/gu, codeOf);
  return `"${visible}${short.length < text.length ? "…" : ""}"`;
}

function codeOf(character: string): string {
  const code = character.codePointAt(0) ?? 0;
  return `<U+${code.toString(16).toUpperCase().padStart(4, "0")}>`;
}
