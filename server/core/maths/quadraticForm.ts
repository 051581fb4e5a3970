/**
 * vᵀ·M·v: the variance of a combination v of quantities whose covariance is M (square, row by row). Rounding below zero is taken for zero.
 */
export function quadraticForm(matrix: Float64Array, vector: Float64Array): number {
  const size = vector.length;
  let sum = 0;
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) sum += vector[i]! * matrix[i * size + j]! * vector[j]!;
  }
  return Math.max(0, sum);
}
