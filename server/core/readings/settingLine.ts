/**
 * A `#` line -> the setting it holds, or null for a plain comment.
 *
 * `# key: value` with a key of one to three words; case, hyphens and spaces in the key don't matter
 * ("# Tip radius: 1.5" sets tip_radius). A misspelled key must be told, not lost, so anything that looks like a
 * setting is one; a time ("# at 10:30") or an address ("# https://…") is a comment.
 */
export type WrittenSetting = { readonly key: string; readonly value: string };

const settingShape = /^#+\s*(\p{L}[\p{L}\d]*(?:[ _-]+[\p{L}\d]+){0,2})\s*:(?!\/\/)\s*(.*)$/u;

export function settingInLine(comment: string): WrittenSetting | null {
  const found = settingShape.exec(comment);
  if (found === null) return null;
  const words = found[1]!;
  // "at 10:30" ends its first part in a number; no key does.
  if (/\d$/.test(words) && /^\d/.test(found[2]!)) return null;
  return { key: words.toLowerCase().replace(/[ _-]+/g, "_"), value: found[2]! };
}

/** The text of a `#` line as written, freed of what a spreadsheet wraps around it; null where the line is no comment. */
export function commentInLine(line: string): string | null {
  const text = line.trim();
  if (!text.startsWith("#") && !text.startsWith('"#')) return null;
  const bare = text.slice(0, lengthWithoutEmptyCells(text));
  if (!bare.startsWith('"')) return bare;
  return bare.slice(1).replace(/"$/, "").replaceAll('""', '"').trim();
}

/** Counted from the end: a pattern would look at every run of commas in a long line, and again from each of them. */
function lengthWithoutEmptyCells(text: string): number {
  let length = text.length;
  while (length > 0 && /[,;\s]/.test(text[length - 1]!)) length -= 1;
  return length;
}
