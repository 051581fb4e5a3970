/**
 * Inverse of a small square matrix by Gauss–Jordan elimination with row exchanges (partial pivoting).
 *
 * in   an n × n matrix, row by row
 * out  its inverse in the same layout; null where a pivot falls below 1e-13 of the matrix's largest entry
 *
 * n³ operations: meant for a dozen rows, not for thousands. Source: any text on numerical linear algebra.
 */
export function squareInverse(matrix: Float64Array, n: number): Float64Array | null {
  const left = matrix.slice();
  const right = new Float64Array(n * n);
  for (let i = 0; i < n; i++) right[i * n + i] = 1;
  const largest = left.reduce((most, entry) => Math.max(most, Math.abs(entry)), 0);

  for (let column = 0; column < n; column++) {
    let pivotRow = column;
    for (let i = column + 1; i < n; i++) {
      if (Math.abs(left[i * n + column]!) > Math.abs(left[pivotRow * n + column]!)) pivotRow = i;
    }
    const pivot = left[pivotRow * n + column]!;
    if (!(Math.abs(pivot) > 1e-13 * largest)) return null;
    exchangeRows(left, n, column, pivotRow);
    exchangeRows(right, n, column, pivotRow);
    for (let k = 0; k < n; k++) {
      left[column * n + k] = left[column * n + k]! / pivot;
      right[column * n + k] = right[column * n + k]! / pivot;
    }
    for (let i = 0; i < n; i++) {
      const factor = left[i * n + column]!;
      if (i === column || factor === 0) continue;
      for (let k = 0; k < n; k++) {
        left[i * n + k] = left[i * n + k]! - factor * left[column * n + k]!;
        right[i * n + k] = right[i * n + k]! - factor * right[column * n + k]!;
      }
    }
  }
  return right;
}

function exchangeRows(matrix: Float64Array, n: number, a: number, b: number): void {
  if (a === b) return;
  for (let k = 0; k < n; k++) {
    const kept = matrix[a * n + k]!;
    matrix[a * n + k] = matrix[b * n + k]!;
    matrix[b * n + k] = kept;
  }
}
