/**
 * What is known of some unknowns, as a normal distribution, and how one more equation changes it.
 *
 * An equation says: row · unknowns = observed, give or take a variance. Taking it in turns mean m and covariance C into
 *
 *   m' = m + C·a·(observed − aᵀ·m) / s,   C' = C − C·a·aᵀ·C / s,   s = variance + aᵀ·C·a
 *
 * (linear least squares, one equation at a time). The same with the variance negative takes the equation back out, exactly.
 * Unknowns and rows in any units that fit together. Nothing given is changed.
 *
 * Source: R. L. Plackett, Some theorems in least squares, Biometrika 37 (1950) 149–157 (from memory).
 *
 * Example: mean 0, variance 1 for one unknown; the equation 1 · unknown = 2 with variance 1 -> mean 1, variance ½.
 */

/** `covariance` row by row, mean.length squared. */
export type NormalKnowledge = { readonly mean: Float64Array; readonly covariance: Float64Array };

/** Unknowns about nothing, each with a spread (standard deviation) of its own, unconnected. */
export function aboutNothing(spreads: ArrayLike<number>): NormalKnowledge {
  const size = spreads.length;
  const covariance = new Float64Array(size * size);
  for (let i = 0; i < size; i++) covariance[i * size + i] = spreads[i]! ** 2;
  return { mean: new Float64Array(size), covariance };
}

/** What an equation's left side comes to, and its variance. */
export function foretold({ mean, covariance }: NormalKnowledge, row: Float64Array) {
  const reach = times(covariance, row);
  return { value: dot(row, mean), variance: Math.max(0, dot(row, reach)) };
}

export function withEquation(
  known: NormalKnowledge,
  row: Float64Array,
  observed: number,
  variance: number,
): NormalKnowledge {
  const size = row.length;
  const reach = times(known.covariance, row);
  const total = variance + dot(row, reach);
  const off = observed - dot(row, known.mean);
  const mean = known.mean.map((entry, i) => entry + (reach[i]! * off) / total);
  const covariance = known.covariance.slice();
  for (let i = 0; i < size; i++) {
    const share = reach[i]! / total;
    if (share === 0) continue;
    for (let j = 0; j < size; j++) covariance[i * size + j] = covariance[i * size + j]! - share * reach[j]!;
  }
  return { mean, covariance };
}

/** Take back an equation that was taken in with this variance. */
export function withoutEquation(
  known: NormalKnowledge,
  row: Float64Array,
  observed: number,
  variance: number,
): NormalKnowledge {
  return withEquation(known, row, observed, -variance);
}

function times(matrix: Float64Array, vector: Float64Array): Float64Array {
  const size = vector.length;
  const product = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    let sum = 0;
    for (let j = 0; j < size; j++) sum += matrix[i * size + j]! * vector[j]!;
    product[i] = sum;
  }
  return product;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
