/**
 * The planing task in its simplest form, for checks against published figures: the target of a linear family that lies below
 * every reading and keeps the largest distance (the cut) smallest.
 *
 * Variables: the family's coefficients, then the largest cut t. Rows: target ≤ reading, then reading − target ≤ t.
 */
import { minimise, type Optimal, type Programme } from "../../server/core/maths/linearProgram.ts";

export function programmeBelow(basis: readonly (readonly number[])[], heights: readonly number[]): Programme {
  const terms = basis[0]!.length;
  const below = basis.flatMap((row) => [...row, 0]);
  const within = basis.flatMap((row) => [...row.map((entry) => -entry), -1]);
  return {
    objective: [...Array<number>(terms).fill(0), 1],
    rows: {
      columns: terms + 1,
      coefficients: Float64Array.from([...below, ...within]),
      atMost: Float64Array.from([...heights, ...heights.map((height) => -height)]),
    },
    bounds: Array.from({ length: terms + 1 }, () => [-Infinity, Infinity] as const),
  };
}

export function targetBelow(basis: readonly (readonly number[])[], heights: readonly number[]): Optimal {
  const optimum = minimise(programmeBelow(basis, heights));
  if (optimum.outcome !== "optimal") throw new Error(`target below readings: ${optimum.outcome}`);
  return optimum;
}
