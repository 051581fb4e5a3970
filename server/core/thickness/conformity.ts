/**
 * Is a limit kept? What a measured value with its uncertainty can say of it, in guard bands and as a probability.
 *
 * The true value is taken as normal about the measured one (JCGM 106:2012, 7.2 to 7.4). Guard bands of U on both sides of a
 * limit (ISO 14253-1, with k = 2): passed for certain from limit + U on, kept for certain up to limit - U, and between them neither
 * is proved. The same for wear, for shape and for thickness, whose limit is passed from above.
 *
 * in: value and limit in one unit, usually mm -> out: a certainty; a probability, 0 to 1.
 */
import { normalCdf } from "../maths/quantiles.ts";
import { coverageFactor, type Quantity } from "../units.ts";

/** Whether a limit is passed: for certain; by less than U; kept by less than U; kept for certain. */
export type Certainty = "certain" | "possible" | "near" | "none";

/** `overMm`: how far the limit is passed, negative inside it; `u` expanded. At exactly U a thing is proved, on either side. */
export function certaintyOf(overMm: number, u: number): Certainty {
  if (overMm > 0) return overMm >= u ? "certain" : "possible";
  return overMm > -u ? "near" : "none";
}

/** Not proved on either side. */
export function isClose(certainty: Certainty): boolean {
  return certainty === "possible" || certainty === "near";
}

/** Probability that the true value lies above the limit. 13.6 with U 3.6 (k = 2) against 16.3: 0.07. */
export function probabilityOver({ value, u }: Quantity, limit: number): number {
  if (u === 0) return value > limit ? 1 : 0;
  return normalCdf((value - limit) / (u / coverageFactor));
}

/** Probability that the true value lies below the limit. */
export function probabilityUnder({ value, u }: Quantity, limit: number): number {
  return probabilityOver({ value: -value, u }, -limit);
}

/** Probability that the true value lies outside a range. */
export function probabilityOutside(measured: Quantity, [from, to]: readonly [number, number]): number {
  return probabilityUnder(measured, from) + probabilityOver(measured, to);
}

/** Chances too small for tenths, as "1 in so many"; no more is claimed than a normal law can hold. */
const smallChances = [15, 20, 30, 40] as const;

/** A probability as one says it at the bench: 0.31 is "about 3 in 10", 0.034 "about 1 in 30", 0.97 "about 29 in 30". */
export function chanceInWords(probability: number): string {
  const rarer = Math.min(probability, 1 - probability);
  if (rarer >= 0.08) return `about ${Math.min(9, Math.max(1, Math.round(probability * 10)))} in 10`;
  if (rarer < 0.02) return probability < 0.5 ? "less than 1 in 40" : "more than 39 in 40";
  const many = smallChances.reduce((best, one) =>
    Math.abs(one - 1 / rarer) < Math.abs(best - 1 / rarer) ? one : best,
  );
  return probability < 0.5 ? `about 1 in ${many}` : `about ${many - 1} in ${many}`;
}
