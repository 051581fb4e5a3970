/**
 * A linear programme brought to size: every column's and every row's largest coefficient is 1, and so is the objective's.
 *
 * Heights in mm, slopes in mm per mm and radii meet in one programme with coefficients from 1e-3 to 1e3; scaled, one tolerance
 * serves all of them. x = columnScale · scaled x; row i is multiplied by rowScale[i]; the objective is divided by objectiveScale.
 *
 * Constraints are numbered through: 0 … m−1 the rows, then n upper bounds, then n lower bounds, then n placeholders x_j = 0.
 */
import type { Programme } from "./linearProgram.ts";

export type ScaledProgramme = {
  readonly m: number;
  readonly n: number;
  readonly objective: Float64Array;
  /** m × n, row by row. */
  readonly coefficients: Float64Array;
  readonly atMost: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  readonly columnScale: Float64Array;
  readonly rowScale: Float64Array;
  readonly objectiveScale: number;
};

export function scaleProgramme(programme: Programme): ScaledProgramme {
  const { columns: n, coefficients: given, atMost } = programme.rows;
  const m = atMost.length;

  const columnScale = new Float64Array(n);
  for (let i = 0; i < m; i++) {
    for (let j = 0; j < n; j++) columnScale[j] = Math.max(columnScale[j]!, Math.abs(given[i * n + j]!));
  }
  for (let j = 0; j < n; j++) columnScale[j] = 1 / (columnScale[j]! || 1);

  const coefficients = new Float64Array(m * n);
  const rowScale = new Float64Array(m);
  for (let i = 0; i < m; i++) {
    let largest = 0;
    for (let j = 0; j < n; j++) largest = Math.max(largest, Math.abs(given[i * n + j]! * columnScale[j]!));
    rowScale[i] = 1 / (largest || 1);
    for (let j = 0; j < n; j++) coefficients[i * n + j] = given[i * n + j]! * columnScale[j]! * rowScale[i]!;
  }

  const objective = Float64Array.from(programme.objective, (cost, j) => cost * columnScale[j]!);
  const objectiveScale = objective.reduce((most, cost) => Math.max(most, Math.abs(cost)), 0) || 1;
  return {
    m,
    n,
    objective: objective.map((cost) => cost / objectiveScale),
    coefficients,
    atMost: atMost.map((limit, i) => limit * rowScale[i]!),
    lower: Float64Array.from(programme.bounds, ([lower], j) => lower / columnScale[j]!),
    upper: Float64Array.from(programme.bounds, ([, upper], j) => upper / columnScale[j]!),
    columnScale,
    rowScale,
    objectiveScale,
  };
}

/** The direction a constraint looks in: it says direction · x ≤ limit. */
export function directionOf({ m, n, coefficients }: ScaledProgramme, constraint: number): Float64Array {
  if (constraint < m) return coefficients.subarray(constraint * n, (constraint + 1) * n);
  const direction = new Float64Array(n);
  const isLowerBound = constraint >= m + n && constraint < m + 2 * n;
  direction[(constraint - m) % n] = isLowerBound ? -1 : 1;
  return direction;
}

/** Infinity for a bound that is not there; 0 for a placeholder. */
export function limitOf({ m, n, atMost, lower, upper }: ScaledProgramme, constraint: number): number {
  if (constraint < m) return atMost[constraint]!;
  const j = (constraint - m) % n;
  if (constraint < m + n) return upper[j]!;
  return constraint < m + 2 * n ? -lower[j]! : 0;
}

export function placeholderOf({ m, n }: ScaledProgramme, variable: number): number {
  return m + 2 * n + variable;
}

export function isPlaceholder({ m, n }: ScaledProgramme, constraint: number): boolean {
  return constraint >= m + 2 * n;
}
