/**
 * The certificate of an optimum: the conditions that no solver is needed to check.
 *
 * in   a scaled programme, an x and one multiplier per row
 * out  by how much each condition fails, as a share of the sizes met; "holds" where none fails by more than 1e-9
 *
 *   feasible     A·x ≤ b and x within its bounds
 *   balanced     c + Aᵀ·multipliers is zero but for variables that rest on a bound, and there points into the bound
 *   no gap       a row or bound with a multiplier is touched, so that c·x equals what the multipliers prove to be the least
 *
 * Source: the duality theorem of linear programming; V. Chvátal, Linear Programming (1983), ch. 5 (from memory).
 */
import type { ScaledProgramme } from "./scaledProgramme.ts";

export type Certificate = {
  readonly holds: boolean;
  readonly violation: number;
  readonly imbalance: number;
  readonly gap: number;
};

const tolerance = 1e-9;

export function certify(programme: ScaledProgramme, x: Float64Array, multipliers: Float64Array): Certificate {
  const { m, n, coefficients, atMost, lower, upper, objective } = programme;
  const size = largestOf(x) || 1;
  const balance = objective.slice();
  let violation = 0;
  let imbalance = 0;
  let gap = 0;
  let weight = 1;

  for (let i = 0; i < m; i++) {
    let reached = 0;
    for (let j = 0; j < n; j++) reached += coefficients[i * n + j]! * x[j]!;
    const room = atMost[i]! - reached;
    violation = Math.max(violation, -room);
    const multiplier = multipliers[i]!;
    if (multiplier === 0) continue;
    for (let j = 0; j < n; j++) balance[j] = balance[j]! + multiplier * coefficients[i * n + j]!;
    imbalance = Math.max(imbalance, -multiplier);
    gap += multiplier * Math.abs(room);
    weight += multiplier;
  }
  for (let j = 0; j < n; j++) {
    violation = Math.max(violation, lower[j]! - x[j]!, x[j]! - upper[j]!);
    const pull = balance[j]!;
    const roomToBound = pull > 0 ? x[j]! - lower[j]! : upper[j]! - x[j]!;
    if (Math.abs(pull) <= tolerance * weight && !(roomToBound <= tolerance * size)) {
      imbalance = Math.max(imbalance, Math.abs(pull));
    } else {
      gap += Math.abs(pull) * Math.abs(roomToBound);
      weight += Math.abs(pull);
    }
  }
  const shares = { violation: violation / size, imbalance: imbalance / weight, gap: gap / (size * weight) };
  return { holds: Object.values(shares).every((share) => share <= tolerance), ...shares };
}

function largestOf(values: Float64Array): number {
  return values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
}
