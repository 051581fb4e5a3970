/**
 * A tall matrix reduced to its triangle R by Householder reflections, and what can be read off R.
 *
 * in   the matrix column after column in one array (`byColumn`: rows of the first column, then of the second, …)
 * out  R in its upper triangle; rank and condition of the matrix; R⁻¹
 *
 * Q is never formed: it is applied to the observed values along the way. The rank is judged by singular values, not by zeros on
 * the diagonal of R, which rounding never leaves exactly zero.
 *
 * Source: G. H. Golub, C. F. Van Loan, Matrix Computations, 4th ed., 5.1–5.2 (from memory).
 */
import { Matrix, SingularValueDecomposition } from "ml-matrix";

/**
 * Householder reflections, in place: the upper triangle of `byColumn` becomes R, `rotated` becomes Qᵀy.
 * What stands below the triangle afterwards is of no further use.
 */
export function reduceToTriangle(byColumn: Float64Array, rows: number, columns: number, rotated: Float64Array): void {
  for (let j = 0; j < Math.min(columns, rows - 1); j++) {
    const reflector = byColumn.subarray(j * rows + j, (j + 1) * rows);
    let squares = 0;
    for (let i = 0; i < reflector.length; i++) squares += reflector[i]! * reflector[i]!;
    if (squares === 0) continue;
    const diagonal = reflector[0]! > 0 ? -Math.sqrt(squares) : Math.sqrt(squares);
    reflector[0] = reflector[0]! - diagonal;
    // v·v / 2 for v = reflector, by the identity v·v = 2·diagonal·(diagonal − x₀)
    const halfSquare = -diagonal * reflector[0]!;
    for (let k = j + 1; k < columns; k++)
      reflect(byColumn.subarray(k * rows + j, (k + 1) * rows), reflector, halfSquare);
    reflect(rotated.subarray(j, rows), reflector, halfSquare);
    reflector[0] = diagonal;
  }
}

function reflect(target: Float64Array, reflector: Float64Array, halfSquare: number): void {
  let along = 0;
  for (let i = 0; i < reflector.length; i++) along += reflector[i]! * target[i]!;
  const factor = along / halfSquare;
  for (let i = 0; i < reflector.length; i++) target[i] = target[i]! - factor * reflector[i]!;
}

export type Spread = { readonly rank: number; readonly condition: number; readonly entangled: readonly number[] };

/**
 * Rank and condition from the singular values of R. A singular value below (rows or columns) × machine epsilon × the largest
 * counts as zero, the usual rounding bound; `entangled` names the columns that take part in the first such direction.
 */
export function singularSpread(byColumn: Float64Array, rows: number, columns: number): Spread {
  const triangle = Matrix.zeros(columns, columns);
  for (let j = 0; j < columns; j++) {
    for (let i = 0; i <= Math.min(j, rows - 1); i++) triangle.set(i, j, byColumn[j * rows + i]!);
  }
  const decomposition = new SingularValueDecomposition(triangle, { computeLeftSingularVectors: false });
  const values = decomposition.diagonal;
  const largest = values[0] ?? 0;
  const negligible = Math.max(rows, columns) * Number.EPSILON * largest;
  const rank = values.filter((value) => value > negligible).length;
  const entangled: number[] = [];
  if (rank < columns) {
    const direction = decomposition.rightSingularVectors.getColumn(columns - 1);
    const most = Math.max(...direction.map(Math.abs));
    direction.forEach((share, j) => {
      if (Math.abs(share) > 1e-3 * most) entangled.push(j);
    });
  }
  return { rank, condition: largest / values[columns - 1]!, entangled };
}

/** R⁻¹, row by row, zero below its diagonal. */
export function inverseOfTriangle(byColumn: Float64Array, rows: number, columns: number): Float64Array {
  const inverse = new Float64Array(columns * columns);
  for (let k = 0; k < columns; k++) {
    for (let i = k; i >= 0; i--) {
      let sum = i === k ? 1 : 0;
      for (let j = i + 1; j <= k; j++) sum -= byColumn[j * rows + i]! * inverse[j * columns + k]!;
      inverse[i * columns + k] = sum / byColumn[i * rows + i]!;
    }
  }
  return inverse;
}
