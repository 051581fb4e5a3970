/**
 * The ratio of two uncertain quantities: which values it may have. Here: depth still to go over growth, that is time.
 *
 * θ = a / b belongs to the set when |a − θ·b| ≤ k · √(Var a − 2θ·Cov + θ²·Var b). With b clear of nothing that is an interval; otherwise
 * everything outside one, or every value: then nothing is told, as it should be.
 *
 * Source: E. C. Fieller, Some problems in interval estimation, J. Royal Statistical Society B 16 (1954) 175–185 (from memory). Any
 * units; θ in units of a over units of b.
 */

export type Uncertain = { readonly value: number; readonly variance: number };

export type RatioSet =
  | { readonly kind: "between"; readonly from: number; readonly to: number }
  /** Up to `to`, and from `from` on; either may be infinite, and then that branch is empty. */
  | { readonly kind: "outside"; readonly to: number; readonly from: number }
  | { readonly kind: "any" };

/** `factor`: how many standard uncertainties count. */
export function ratioSet(a: Uncertain, b: Uncertain, covariance: number, factor: number): RatioSet {
  const square = b.value ** 2 - factor ** 2 * b.variance;
  const half = a.value * b.value - factor ** 2 * covariance;
  const constant = a.value ** 2 - factor ** 2 * a.variance;
  if (square === 0) {
    if (half === 0) return { kind: "any" };
    const end = constant / (2 * half);
    return half > 0
      ? { kind: "outside", to: Number.NEGATIVE_INFINITY, from: end }
      : { kind: "outside", to: end, from: Number.POSITIVE_INFINITY };
  }
  const discriminant = half ** 2 - square * constant;
  if (square > 0) {
    const root = Math.sqrt(Math.max(0, discriminant));
    return { kind: "between", from: (half - root) / square, to: (half + root) / square };
  }
  if (discriminant <= 0) return { kind: "any" };
  const root = Math.sqrt(discriminant);
  return { kind: "outside", to: (half + root) / square, from: (half - root) / square };
}
