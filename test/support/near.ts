/**
 * Comparisons with a stated tolerance. Every caller says beside the call why the tolerance is what it is.
 */
import { expect } from "vitest";

/** `actual` lies within ±`tolerance` (same unit) of `expected`. */
export function near(actual: number, expected: number, tolerance: number, what = "value"): void {
  const off = Math.abs(actual - expected);
  expect(off <= tolerance, `${what}: ${actual} is ${off} from ${expected}, more than ${tolerance}`).toBe(true);
}

/** Every element lies within ±`tolerance` of its counterpart. */
export function allNear(
  actual: ArrayLike<number>,
  expected: ArrayLike<number>,
  tolerance: number,
  what = "value",
): void {
  expect(actual.length, `${what}: how many`).toBe(expected.length);
  for (let i = 0; i < expected.length; i++) near(actual[i]!, expected[i]!, tolerance, `${what} ${i}`);
}

/**
 * Number of correct significant digits: −log₁₀ of the relative error (of the absolute error where zero is expected), at most 16.
 */
function digits(actual: number, expected: number): number {
  const off = Math.abs(actual - expected) / (expected === 0 ? 1 : Math.abs(expected));
  if (Number.isNaN(off)) return 0;
  return off === 0 ? 16 : Math.min(16, -Math.log10(off));
}

/** `actual` agrees with `expected` to at least `least` significant digits. */
export function agreesToDigits(actual: number, expected: number, least: number, what = "value"): void {
  const reached = digits(actual, expected);
  expect(reached >= least, `${what}: ${actual} against ${expected}: ${reached.toFixed(1)} digits, ${least} asked`).toBe(
    true,
  );
}
