/**
 * Least squares: by hand, by what does not change the answer, and what it refuses. Published sets stand in test/reference.
 */
import { describe, expect, test } from "vitest";
import { type RowMajor, type Solved, solveLeastSquares } from "../../../../server/core/maths/leastSquares.ts";
import { seededRandom } from "../../../../server/core/maths/seededRandom.ts";
import { allNear, near } from "../../../support/near.ts";

function designOf(rows: readonly (readonly number[])[]): RowMajor {
  return { rows: rows.length, columns: rows[0]?.length ?? 0, entries: Float64Array.from(rows.flat()) };
}

function solved(
  rows: readonly (readonly number[])[],
  observed: readonly number[],
  weights?: readonly number[],
): Solved {
  const fit = solveLeastSquares(designOf(rows), Float64Array.from(observed), weights && Float64Array.from(weights));
  if (fit.outcome !== "solved") throw new Error(fit.why);
  return fit;
}

// Small whole numbers: rounding, a few units in the last place.
const rounding = 1e-13;

describe("by hand", () => {
  const line = [0, 1, 2, 3].map((x) => [1, x]);

  test("a line through points of a line", () => {
    const fit = solved(line, [1, 3, 5, 7]);
    allNear(fit.coefficients, [1, 2], rounding, "coefficients");
    allNear(fit.residuals, [0, 0, 0, 0], rounding, "residuals");
    expect(fit.degreesOfFreedom).toBe(2);
  });

  test("a line through scattered points: residuals, sum of squares and covariance", () => {
    // x 0…3, y 1, 2, 2, 4: mean x 1.5, Sxx 5, Sxy 4.5, so slope 0.9, intercept 2.25 − 1.35 = 0.9.
    const fit = solved(line, [1, 2, 2, 4]);
    allNear(fit.coefficients, [0.9, 0.9], rounding, "coefficients");
    allNear(fit.residuals, [0.1, 0.2, -0.7, 0.4], rounding, "residuals");
    near(fit.sumOfSquares, 0.7, rounding, "sum of squares");
    // (XᵀX)⁻¹ = [[14, −6], [−6, 4]] / 20
    allNear(fit.unscaledCovariance, [0.7, -0.3, -0.3, 0.2], rounding, "covariance");
  });

  test("the mean is the fit of a constant, and its condition is 1", () => {
    const fit = solved([[1], [1], [1]], [2, 4, 9]);
    near(fit.coefficients[0]!, 5, rounding);
    near(fit.unscaledCovariance[0]!, 1 / 3, rounding);
    near(fit.condition, 1, rounding);
  });

  test("as many readings as coefficients leave no degree of freedom and no residual", () => {
    const fit = solved(
      [
        [2, 1],
        [1, 3],
      ],
      [5, 10],
    );
    allNear(fit.coefficients, [1, 3], rounding);
    expect(fit.degreesOfFreedom).toBe(0);
    near(fit.sumOfSquares, 0, rounding);
  });

  test("columns at 60° to one another have condition √3", () => {
    // Singular values of unit columns at angle φ: √(1 ± cos φ).
    near(
      solved(
        [
          [1, 1],
          [0, Math.sqrt(3)],
        ],
        [1, 1],
      ).condition,
      Math.sqrt(3),
      rounding,
    );
  });
});

describe("weights", () => {
  const random = seededRandom(3);
  const rows = Array.from({ length: 20 }, () => [1, random.normal(), random.normal()]);
  const observed = rows.map(() => random.normal());

  test("a weight of two is the row read twice", () => {
    const weighted = solved(
      rows,
      observed,
      rows.map((_, i) => (i < 5 ? 2 : 1)),
    );
    const repeated = solved([...rows, ...rows.slice(0, 5)], [...observed, ...observed.slice(0, 5)]);
    allNear(weighted.coefficients, repeated.coefficients, rounding, "coefficients");
    allNear(weighted.unscaledCovariance, repeated.unscaledCovariance, rounding, "covariance");
    near(weighted.sumOfSquares, repeated.sumOfSquares, 1e-12, "sum of squares");
    expect(weighted.degreesOfFreedom).toBe(17);
  });

  test("a weight of nought is a row left out, but its residual is still told", () => {
    const without = solved(rows.slice(1), observed.slice(1));
    const fit = solved(
      rows,
      observed,
      rows.map((_, i) => (i === 0 ? 0 : 1)),
    );
    allNear(fit.coefficients, without.coefficients, rounding, "coefficients");
    expect(fit.degreesOfFreedom).toBe(without.degreesOfFreedom);
    const fitted = rows[0]!.reduce((sum, entry, j) => sum + entry * fit.coefficients[j]!, 0);
    near(fit.residuals[0]!, observed[0]! - fitted, rounding, "residual of the row left out");
  });
});

describe("what does not change the answer", () => {
  const random = seededRandom(11);
  const rows = Array.from({ length: 30 }, () => [1, 100 * random.uniform(), random.normal()]);
  const observed = rows.map(() => random.normal());
  const fit = solved(rows, observed);

  test("the order of the rows", () => {
    allNear(solved(rows.toReversed(), observed.toReversed()).coefficients, fit.coefficients, 1e-12);
  });

  test("the unit of a column: its coefficient takes the unit along, and the condition stays", () => {
    const inMetres = solved(
      rows.map(([one, x, y]) => [one!, x! / 1000, y!]),
      observed,
    );
    near(inMetres.coefficients[1]!, 1000 * fit.coefficients[1]!, 1e-9);
    near(inMetres.condition, fit.condition, 1e-9);
  });

  test("a shape of the family laid on top of the readings: the residuals stay", () => {
    const lifted = observed.map((value, i) => value + 3 - 0.5 * rows[i]![1]! + 2 * rows[i]![2]!);
    // Values near 50 instead of 1.
    allNear(solved(rows, lifted).residuals, fit.residuals, 1e-12);
  });

  test("residuals stand at right angles to every column", () => {
    for (const j of [0, 1, 2]) {
      near(
        fit.residuals.reduce((sum, residual, i) => sum + residual * rows[i]![j]!, 0),
        0,
        1e-10,
        `column ${j}`,
      );
    }
  });

  test("being asked: nothing given is written to", () => {
    const design = designOf(rows);
    const heights = Float64Array.from(observed);
    solveLeastSquares(design, heights);
    expect(design).toEqual(designOf(rows));
    expect(heights).toEqual(Float64Array.from(observed));
  });
});

describe("refusals", () => {
  const undetermined = (rows: readonly (readonly number[])[], weights?: readonly number[]) => {
    const observed = new Float64Array(rows.length);
    const fit = solveLeastSquares(designOf(rows), observed, weights && Float64Array.from(weights));
    return fit.outcome === "undetermined" ? { rank: fit.rank, why: fit.why } : fit.outcome;
  };

  test("two columns that say the same are named", () => {
    const rows = [0, 1, 2, 3].map((x) => [1, x, 2 + 3 * x, x * x]);
    expect(undetermined(rows)).toEqual({ rank: 3, why: "columns 0, 1, 2 can't be told apart" });
  });

  test("so are they where they differ by rounding only", () => {
    const rows = Array.from({ length: 50 }, (_, i) => [1, 0.1 * i, 0.1 * i * 3 + 1e-16 * i]);
    expect(undetermined(rows)).toMatchObject({ rank: 2 });
  });

  test("columns that differ by a millionth part are told apart, and the condition says how hardly", () => {
    const fit = solved(
      Array.from({ length: 50 }, (_, i) => [i, i + 1e-6 * (i % 2)]),
      Array.from({ length: 50 }, (_, i) => i),
    );
    expect(fit.condition).toBeGreaterThan(1e6);
  });

  test("a column of zeros is named", () => {
    expect(
      undetermined([
        [1, 0],
        [1, 0],
        [1, 0],
      ]),
    ).toEqual({ rank: 1, why: "nothing depends on column 1" });
  });

  test("fewer rows than coefficients, or fewer with a weight", () => {
    expect(undetermined([[1, 2]])).toEqual({ rank: 1, why: "1 rows can't settle 2 coefficients" });
    expect(
      undetermined(
        [
          [1, 2],
          [1, 3],
          [1, 4],
        ],
        [1, 0, 0],
      ),
    ).toEqual({ rank: 1, why: "1 rows can't settle 2 coefficients" });
  });

  test.each([
    ["a design without columns", { rows: 1, columns: 0, entries: new Float64Array(0) }, [1], undefined],
    ["entries that don't fill", { rows: 2, columns: 1, entries: new Float64Array(1) }, [1, 1], undefined],
    ["readings that don't match", designOf([[1], [1]]), [1], undefined],
    ["weights that don't match", designOf([[1], [1]]), [1, 1], [1]],
    ["a negative weight", designOf([[1], [1]]), [1, 1], [1, -1]],
    ["a reading that is no number", designOf([[1], [1]]), [1, Number.NaN], undefined],
    ["an entry without end", designOf([[1], [Infinity]]), [1, 1], undefined],
  ])("%s throws", (_what, design, observed, weights) => {
    const given = weights === undefined ? undefined : Float64Array.from(weights);
    expect(() => solveLeastSquares(design, Float64Array.from(observed), given)).toThrow(RangeError);
  });
});

test("a hundred thousand readings by twelve coefficients are no long wait", () => {
  const random = seededRandom(1);
  const [rows, columns] = [100_000, 12];
  const entries = Float64Array.from({ length: rows * columns }, () => random.uniform());
  const observed = Float64Array.from(
    { length: rows },
    (_, i) => entries[i * columns]! - 2 * entries[i * columns + 11]!,
  );
  const began = performance.now();
  const fit = solveLeastSquares({ rows, columns, entries }, observed);
  const took = performance.now() - began;
  if (fit.outcome !== "solved") throw new Error(fit.why);
  allNear(fit.coefficients, [1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, -2], 1e-12);
  // 0.1 s on an idle machine.
  expect(took).toBeLessThan(1000);
});
