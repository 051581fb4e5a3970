/**
 * Things sorted into groups by a name that each gives itself: [name, things], in the order in which the names come up.
 */
export function grouped<T>(things: readonly T[], key: (thing: T) => string): [string, T[]][] {
  const groups = new Map<string, T[]>();
  for (const thing of things) groups.set(key(thing), [...(groups.get(key(thing)) ?? []), thing]);
  return [...groups];
}

/** First by one name, within it by another: "one, other". */
export function groupedTwice<T>(
  things: readonly T[],
  one: (thing: T) => string,
  other: (thing: T) => string,
): [string, T[]][] {
  return grouped(things, one).flatMap(([name, those]) =>
    grouped(those, other).map(([second, few]): [string, T[]] => [`${name}, ${second}`, few]),
  );
}
