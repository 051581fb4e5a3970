/**
 * A value between two places of a list: linear, held at the ends. Same unit in as out.
 */
export function valueAlong(xs: readonly number[], values: readonly number[], x: number): number {
  if (xs.length === 0) return Number.NaN;
  const next = xs.findIndex((at) => at >= x);
  if (next === -1) return values.at(-1)!;
  if (next === 0) return values[0]!;
  const share = (x - xs[next - 1]!) / (xs[next]! - xs[next - 1]!);
  return values[next - 1]! * (1 - share) + values[next]! * share;
}
