/**
 * A piece of somebody's text, fit to stand in a message: short, with nothing in it that could upset a terminal or a page.
 *
 * More than 40 characters are cut with "…"; control and invisible characters are shown by their code, e.g. <U+0007>.
 */
const longestQuote = 40;

/** `legible("O.45")` is `O.45`. */
export function legible(text: string): string {
  const short = Array.from(text.slice(0, 2 * longestQuote))
    .slice(0, longestQuote)
    .join("");
  const visible = short.replace(/[\p{C}\p{Zl}\p{Zp}]/gu, codeOf);
  return short.length < text.length ? `${visible}…` : visible;
}

function codeOf(character: string): string {
  const code = character.codePointAt(0) ?? 0;
  return `<U+${code.toString(16).toUpperCase().padStart(4, "0")}>`;
}
