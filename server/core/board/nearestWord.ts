/**
 * The known word nearest to a mistyped one, by edit distance: single letters put in, left out, changed, or two
 * neighbours swapped, each counting one (the restricted Damerau–Levenshtein distance).
 *
 * nearestWord("tip_raduis", ["tip_radius", "reads"]) -> "tip_radius".
 */

/** Of several equally near, the first listed. Throws on an empty list. */
export function nearestWord(word: string, known: readonly string[]): string {
  const [first, ...others] = known;
  if (first === undefined) throw new RangeError("nearestWord needs at least one known word");
  let nearest = first;
  let least = editDistance(word, first);
  for (const other of others) {
    const distance = editDistance(word, other);
    if (distance < least) {
      least = distance;
      nearest = other;
    }
  }
  return nearest;
}

/** Fewest single-letter edits from one word to the other; words longer than 64 letters are cut there. */
export function editDistance(from: string, to: string): number {
  const a = [...from].slice(0, 64);
  const b = [...to].slice(0, 64);
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  const at = (i: number, j: number): number => rows[i]?.[j] ?? 0;
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    rows.push(row);
    for (let j = 1; j <= b.length; j++) {
      const changed = at(i - 1, j - 1) + (a[i - 1] === b[j - 1] ? 0 : 1);
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      row.push(
        Math.min(
          at(i - 1, j) + 1,
          at(i, j - 1) + 1,
          changed,
          swapped ? at(i - 2, j - 2) + 1 : Number.POSITIVE_INFINITY,
        ),
      );
    }
  }
  return at(a.length, b.length);
}
