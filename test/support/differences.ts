/**
 * Where two answers differ: every path at which one has another word, another number or another shape.
 *
 * Numbers may differ by `tolerance`, absolute up to 1 and relative beyond (a volume of 4000 mm³ by 4000 times as much as a depth).
 * in: two JSON-like values -> out: a line for each difference, "planing.volumeMm3: 12.5, not 12.4"; none where they are the same.
 */
export function differences(
  actual: unknown,
  expected: unknown,
  tolerance: number,
  isLeftOut: (path: string) => boolean = () => false,
  path = "",
): readonly string[] {
  if (isLeftOut(path)) return [];
  if (typeof actual === "number" && typeof expected === "number") {
    const off = Math.abs(actual - expected);
    return off <= tolerance * Math.max(1, Math.abs(expected)) ? [] : [`${path}: ${actual}, not ${expected}`];
  }
  if (isRecord(actual) && isRecord(expected)) {
    const keys = new Set([...Object.keys(actual), ...Object.keys(expected)]);
    return [...keys].flatMap((key) =>
      differences(actual[key], expected[key], tolerance, isLeftOut, path === "" ? key : `${path}.${key}`),
    );
  }
  return Object.is(actual, expected) ? [] : [`${path}: ${String(actual)}, not ${String(expected)}`];
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null;
}
