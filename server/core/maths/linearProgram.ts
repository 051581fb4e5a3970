/**
 * Linear programme: the x that makes c·x smallest where A·x ≤ b and every x_j lies between its bounds.
 *
 * in   objective c (n numbers), rows A (m × n, row by row) and b, bounds (each finite or ±Infinity)
 * out  "optimal" with x, the objective and one multiplier ≥ 0 per row (what one unit more of b would save; zero where the row
 *      does not touch); or "infeasible"; or "unbounded"
 *
 * Meant for few variables and many rows (12 and 20,000): a board's target against all its readings.
 *
 * Method: exchange of touching constraints (exchange.ts). Every optimum is certified by its conditions before it is returned
 * (optimalityCertificate.ts).
 *
 * Source: V. Chvátal, Linear Programming (1983), chs. 8 and 10 (from memory). Checked against published
 * optima and a second implementation.
 *
 * Example: minimise −x − y where x + 2y ≤ 4, 0 ≤ x ≤ 2, 0 ≤ y: x = 2, y = 1, objective −3, multiplier 0.5.
 */
import { firstCorner, suitableCorner } from "./corner.ts";
import { exchange } from "./exchange.ts";
import { certify } from "./optimalityCertificate.ts";
import { limitOf, scaleProgramme } from "./scaledProgramme.ts";

export type Programme = {
  readonly objective: readonly number[];
  readonly rows: { readonly columns: number; readonly coefficients: Float64Array; readonly atMost: Float64Array };
  readonly bounds: readonly (readonly [lower: number, upper: number])[];
};

export type Optimal = {
  readonly outcome: "optimal";
  readonly x: Float64Array;
  readonly objective: number;
  /** One per row, ≥ 0. */
  readonly multipliers: Float64Array;
  /** Numbers of the n constraints that touch: of use only as `startAt` of another call. */
  readonly touching: readonly number[];
};

export type Optimum = Optimal | { readonly outcome: "infeasible" } | { readonly outcome: "unbounded" };

/**
 * `startAt` takes the `touching` of an earlier answer. A programme that differs from that one only in b is then a few steps
 * from its optimum; where the start does not suit, it is left aside. The optimum is the same either way.
 *
 * Throws a RangeError where sizes don't match or a number is NaN; an Error where an optimum fails its certificate.
 */
export function minimise(programme: Programme, startAt?: readonly number[]): Optimum {
  checkSizes(programme);
  if (contradictsItself(programme)) return { outcome: "infeasible" };

  const scaled = scaleProgramme(programme);
  const last = exchange(scaled, (startAt && suitableCorner(scaled, startAt)) ?? firstCorner(scaled));
  if (last === "infeasible") return { outcome: "infeasible" };
  if (last.touching.some((constraint) => limitOf(scaled, constraint) === Infinity)) return { outcome: "unbounded" };

  const scaledMultipliers = new Float64Array(scaled.m);
  last.touching.forEach((constraint, k) => {
    if (constraint < scaled.m) scaledMultipliers[constraint] = last.multipliers[k]!;
  });
  const certificate = certify(scaled, last.near, scaledMultipliers);
  if (!certificate.holds) throw new Error(`linear programme: optimum not certified: ${JSON.stringify(certificate)}`);

  const x = last.near.map((value, j) => {
    const [lower, upper] = programme.bounds[j]!;
    return Math.min(upper, Math.max(lower, value * scaled.columnScale[j]!));
  });
  return {
    outcome: "optimal",
    x,
    objective: programme.objective.reduce((sum, cost, j) => sum + cost * x[j]!, 0),
    multipliers: scaledMultipliers.map((multiplier, i) => multiplier * scaled.rowScale[i]! * scaled.objectiveScale),
    touching: last.touching,
  };
}

/** Bounds that cross, or a limit that nothing finite meets. */
function contradictsItself({ rows, bounds }: Programme): boolean {
  return (
    bounds.some(([lower, upper]) => lower > upper || lower === Infinity || upper === -Infinity) ||
    rows.atMost.includes(-Infinity)
  );
}

function checkSizes({ objective, rows, bounds }: Programme): void {
  const n = rows.columns;
  if (n < 1) throw new RangeError("linear programme: no variables");
  if (objective.length !== n) throw new RangeError(`linear programme: ${objective.length} costs, ${n} variables`);
  if (bounds.length !== n) throw new RangeError(`linear programme: ${bounds.length} bounds, ${n} variables`);
  if (rows.coefficients.length !== rows.atMost.length * n) {
    throw new RangeError("linear programme: the coefficients don't fill rows × columns");
  }
  if (!objective.every(Number.isFinite) || !rows.coefficients.every(Number.isFinite)) {
    throw new RangeError("linear programme: a cost or coefficient is not finite");
  }
  if (rows.atMost.some(Number.isNaN) || bounds.flat().some(Number.isNaN)) {
    throw new RangeError("linear programme: a limit is not a number");
  }
}
