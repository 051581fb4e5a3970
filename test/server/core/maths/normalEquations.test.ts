import { expect, test } from "vitest";
import { seededRandom } from "../../../../data/make/random.ts";
import { solveLeastSquares } from "../../../../server/core/maths/leastSquares.ts";
import { addEquation, noEquations, solveEquations } from "../../../../server/core/maths/normalEquations.ts";
import { allNear } from "../../../support/near.ts";

/** Rows of a parabola's three unknowns, one row a reading, with weights. */
function readings(count: number) {
  const random = seededRandom(count);
  return Array.from({ length: count }, (_, i) => {
    const u = i / count;
    return { row: Float64Array.of(1, u, u * u), residual: random.normal(), weight: random.between(0.2, 3) };
  });
}

function gathered(count: number) {
  const equations = noEquations(3);
  for (const { row, residual, weight } of readings(count)) addEquation(equations, row, residual, weight);
  return equations;
}

/** An orthogonal factorisation, which shares nothing with sums of squares. */
function byOrthogonalRows(count: number) {
  const rows = readings(count);
  const solved = solveLeastSquares(
    {
      rows: count,
      columns: 3,
      entries: Float64Array.from(rows.flatMap(({ row, weight }) => [...row].map((one) => Math.sqrt(weight) * one))),
    },
    Float64Array.from(rows, ({ residual, weight }) => Math.sqrt(weight) * residual),
  );
  if (solved.outcome === "undetermined") throw new Error(solved.why);
  return solved;
}

// Any number of rows may be left over when they are taken four at a time.
test.each([3, 4, 5, 6, 7, 8, 50, 51])("%i weighted rows give the step of an orthogonal factorisation", (count) => {
  const solved = solveEquations(gathered(count));
  if (solved.outcome === "undetermined") throw new Error("undetermined");
  // Condition of the rows about 1e2, of their square 1e4: twelve digits are left of sixteen.
  allNear(solved.step, byOrthogonalRows(count).coefficients, 1e-9, "step");
});

test("two rows don't determine three unknowns", () => {
  expect(solveEquations(gathered(2)).outcome).toBe("undetermined");
});

test("an unknown that no row speaks of stays where it is, and the others are found", () => {
  const equations = noEquations(2);
  for (const height of [1, 2, 3, 4, 5]) addEquation(equations, Float64Array.of(1, 0), height, 1);
  const solved = solveEquations(equations);
  if (solved.outcome === "undetermined") throw new Error("undetermined");
  // A root and its square: rounding.
  allNear(solved.step, [3, 0], 1e-14, "step");
  allNear(solved.unscaledCovariance, [0.2, 0, 0, 0], 1e-15, "covariance");
});

test("rows added after a step count in the next", () => {
  const equations = noEquations(1);
  addEquation(equations, Float64Array.of(1), 1, 1);
  solveEquations(equations);
  addEquation(equations, Float64Array.of(1), 3, 1);
  const solved = solveEquations(equations);
  if (solved.outcome === "undetermined") throw new Error("undetermined");
  allNear(solved.step, [2], 1e-14, "step");
});
