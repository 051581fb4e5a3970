/**
 * The few figures that the tables are made of. In: numbers, in any unit. Out: NaN where there is none to speak of.
 */

/** The value below which this share of the numbers lies, linear between neighbours (0: the least, 1: the greatest). */
export function quantile(numbers: readonly number[], share: number): number {
  if (numbers.length === 0) return Number.NaN;
  const sorted = [...numbers].sort((a, b) => a - b);
  const place = share * (sorted.length - 1);
  const below = Math.floor(place);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below]! + (place - below) * (sorted[above]! - sorted[below]!);
}

export function median(numbers: readonly number[]): number {
  return quantile(numbers, 0.5);
}

/** The 99th percentile; of fewer than a hundred numbers the greatest. */
export function tail(numbers: readonly number[]): number {
  return numbers.length < 100 ? quantile(numbers, 1) : quantile(numbers, 0.99);
}

export function mean(numbers: readonly number[]): number {
  return numbers.length === 0 ? Number.NaN : numbers.reduce((sum, one) => sum + one, 0) / numbers.length;
}

export function rms(numbers: readonly number[]): number {
  return Math.sqrt(mean(numbers.map((one) => one * one)));
}

/** Share of them that holds. */
export function shareOf<T>(things: readonly T[], holds: (thing: T) => boolean): number {
  return mean(things.map((thing) => (holds(thing) ? 1 : 0)));
}
