/**
 * The linear programme: by hand, by its conditions, by what does not change it, and against a second implementation.
 * Published optima stand in test/reference.
 */
import highs from "highs";
import { describe, expect, test } from "vitest";
import { minimise, type Programme } from "../../../../server/core/maths/linearProgram.ts";
import { seededRandom } from "../../../../server/core/maths/seededRandom.ts";
import { allNear, near } from "../../../support/near.ts";
import { asLpText, randomProgramme } from "../../../support/programmes.ts";
import { programmeBelow } from "../../../support/targetBelow.ts";

const free = [-Infinity, Infinity] as const;
const notNegative = [0, Infinity] as const;

function programme(objective: number[], rows: number[][], atMost: number[], bounds: Programme["bounds"]): Programme {
  return {
    objective,
    rows: {
      columns: objective.length,
      coefficients: Float64Array.from(rows.flat()),
      atMost: Float64Array.from(atMost),
    },
    bounds,
  };
}

function optimumOf(given: Programme, startAt?: readonly number[]) {
  const optimum = minimise(given, startAt);
  if (optimum.outcome !== "optimal") throw new Error(optimum.outcome);
  return optimum;
}

// Small whole numbers throughout: only rounding, a few units in the last place.
const rounding = 1e-12;

describe("by hand", () => {
  test("two variables, one row, one bound", () => {
    const optimum = optimumOf(programme([-1, -1], [[1, 2]], [4], [[0, 2], notNegative]));
    allNear(optimum.x, [2, 1], rounding, "x");
    near(optimum.objective, -3, rounding, "objective");
    allNear(optimum.multipliers, [0.5], rounding, "multipliers");
  });

  test("a multiplier is what one unit more of its row saves", () => {
    const optimum = optimumOf(
      programme(
        [-3, -5],
        [
          [1, 0],
          [0, 2],
          [3, 2],
        ],
        [4, 12, 18],
        [notNegative, notNegative],
      ),
    );
    // F. S. Hillier, G. J. Lieberman, Introduction to Operations Research, first example (from memory): 36 at (2, 6).
    allNear(optimum.x, [2, 6], rounding, "x");
    allNear(optimum.multipliers, [0, 1.5, 1], rounding, "multipliers");
    const more = optimumOf(
      programme(
        [-3, -5],
        [
          [1, 0],
          [0, 2],
          [3, 2],
        ],
        [4, 13, 18],
        [notNegative, notNegative],
      ),
    );
    near(more.objective, optimum.objective - 1.5, rounding, "objective with one unit more");
  });

  test("no row at all leaves the bounds", () => {
    allNear(optimumOf(programme([1, -1, 0], [], [], [[-2, 5], [-2, 5], free])).x, [-2, 5, 0], 0, "x");
  });

  test("an objective of zero is content with any feasible point", () => {
    const optimum = optimumOf(programme([0, 0], [[-1, -1]], [-3], [free, free]));
    expect(optimum.x[0]! + optimum.x[1]!).toBeGreaterThanOrEqual(3 - rounding);
    allNear(optimum.multipliers, [0], 0);
  });

  test("a board that is right already costs nothing", () => {
    const places = [0, 1, 2, 3, 4];
    const basis = places.map((x) => [1, x]);
    const optimum = optimumOf(
      programmeBelow(
        basis,
        places.map((x) => 2 - 0.5 * x),
      ),
    );
    allNear(optimum.x, [2, -0.5, 0], rounding, "line and cut");
  });
});

describe("refusals", () => {
  test("rows that contradict one another are infeasible", () => {
    expect(minimise(programme([1], [[1], [-1]], [1, -2], [free])).outcome).toBe("infeasible");
  });
  test("a row that its variable's bounds contradict is infeasible", () => {
    expect(minimise(programme([0], [[1]], [-1], [notNegative])).outcome).toBe("infeasible");
  });
  test("bounds that cross are infeasible", () => {
    expect(minimise(programme([1], [[1]], [9], [[2, 1]])).outcome).toBe("infeasible");
  });
  test("a limit that nothing finite meets is infeasible, and a limit without end is none", () => {
    expect(minimise(programme([1], [[1]], [-Infinity], [free])).outcome).toBe("infeasible");
    expect(minimise(programme([1], [[1]], [9], [[Infinity, Infinity]])).outcome).toBe("infeasible");
    allNear(optimumOf(programme([-1], [[1], [1]], [Infinity, 3], [free])).x, [3], 0);
  });
  test("a row of zeros that asks for less than zero is infeasible", () => {
    expect(minimise(programme([1], [[0]], [-1], [[0, 1]])).outcome).toBe("infeasible");
  });
  test("an objective that nothing holds is unbounded", () => {
    expect(minimise(programme([-1, -1], [[1, -2]], [4], [notNegative, notNegative])).outcome).toBe("unbounded");
    expect(minimise(programme([1], [], [], [free])).outcome).toBe("unbounded");
  });
  test("where it could run off but has no feasible point, it is infeasible", () => {
    expect(
      minimise(
        programme(
          [-1, 0],
          [
            [0, 1],
            [0, -1],
          ],
          [1, -2],
          [free, free],
        ),
      ).outcome,
    ).toBe("infeasible");
  });
  test.each([
    ["costs that don't match the columns", programme([1], [[1]], [1], [free, free])],
    ["bounds that are missing", programme([1], [[1]], [1], [])],
    ["rows that don't fill", programme([1, 1], [[1]], [1], [free, free])],
    ["a coefficient that is no number", programme([1], [[Number.NaN]], [1], [free])],
    ["a limit that is no number", programme([1], [[1]], [Number.NaN], [free])],
    ["no variables", programme([], [], [], [])],
  ])("%s throw", (_what, wrong) => {
    expect(() => minimise(wrong)).toThrow(RangeError);
  });
});

describe("what does not change the optimum", () => {
  const random = seededRandom(7);
  const given = randomProgramme(random, 2);
  const before = optimumOf(given);
  const { columns: n, coefficients, atMost } = given.rows;

  test("the order of the rows", () => {
    const reversed = optimumOf({
      ...given,
      rows: {
        columns: n,
        coefficients: Float64Array.from({ length: coefficients.length }, (_, at) => {
          const i = atMost.length - 1 - Math.floor(at / n);
          return coefficients[i * n + (at % n)]!;
        }),
        atMost: atMost.toReversed(),
      },
    });
    // Rounding of numbers near 10 through a corner of moderate condition.
    near(reversed.objective, before.objective, 1e-10 * Math.abs(before.objective));
  });

  test("the unit of length: readings in µm give the cut in µm", () => {
    const inMicrometres = optimumOf({
      ...given,
      rows: { columns: n, coefficients, atMost: atMost.map((mm) => mm * 1000) },
    });
    near(inMicrometres.objective, 1000 * before.objective, 1e-9 * Math.abs(before.objective));
  });

  test("a row that is asked for twice", () => {
    const twice = optimumOf({
      ...given,
      rows: {
        columns: n,
        coefficients: Float64Array.from([...coefficients, ...coefficients]),
        atMost: Float64Array.from([...atMost, ...atMost]),
      },
    });
    near(twice.objective, before.objective, 1e-10 * Math.abs(before.objective));
  });

  test("where it starts", () => {
    const shaken = { ...given, rows: { ...given.rows, atMost: atMost.map((limit) => limit + 0.01 * random.normal()) } };
    const warm = optimumOf(shaken, before.touching);
    near(warm.objective, optimumOf(shaken).objective, 1e-10 * Math.abs(before.objective));
  });

  test("a start that does not suit: it is left aside", () => {
    near(optimumOf(given, [9999]).objective, before.objective, 0);
    // The corner that is best for the opposite aim is feasible, and the worst place to stop.
    const box = { ...given, bounds: given.bounds.map(() => [-50, 50] as const) };
    const opposite = optimumOf({ ...box, objective: box.objective.map((cost) => -cost) });
    near(optimumOf(box, opposite.touching).objective, optimumOf(box).objective, 1e-9);
  });

  test("being asked: nothing given is written to", () => {
    const asked = randomProgramme(seededRandom(8), 2);
    minimise(asked);
    expect(asked).toEqual(randomProgramme(seededRandom(8), 2));
  });
});

describe("against a second implementation", () => {
  test("two hundred random programmes of five kinds: the same outcome, the same optimum", async () => {
    const solver = await highs();
    const random = seededRandom(20_000);
    const outcomes = { optimal: 0, infeasible: 0, unbounded: 0 };
    for (let trial = 0; trial < 200; trial++) {
      const given = randomProgramme(random, trial);
      const optimum = minimise(given);
      const other = solver.solve(asLpText(given), {
        primal_feasibility_tolerance: 1e-10,
        dual_feasibility_tolerance: 1e-10,
        presolve: "off",
      });
      outcomes[optimum.outcome]++;
      expect(`${trial}: ${optimum.outcome}`).toBe(`${trial}: ${other.Status.toLowerCase()}`);
      if (optimum.outcome !== "optimal") continue;
      // The other stops at 1e-10 of feasibility on numbers up to 100 and prints nothing less than double.
      const scale = Math.max(1, Math.abs(other.ObjectiveValue));
      near(optimum.objective, other.ObjectiveValue, 1e-7 * scale, `trial ${trial}`);
    }
    // Each outcome is met often enough to count as tried.
    expect(Math.min(...Object.values(outcomes))).toBeGreaterThan(10);
  });
});

describe("a board's size", () => {
  const boardProgramme = (readings: number, seed: number): Programme => {
    const random = seededRandom(seed);
    const places = Array.from({ length: readings }, () => [random.uniform(), 2 * random.uniform() - 1] as const);
    const basis = places.map(([u, v]) => [1, u, v, v * v, u * (1 - u), u * v, u * v * v, u * u * v, u * u * u]);
    const heights = places.map(([u, v]) => {
      const pit = random.uniform() < 0.2 ? 0.2 * random.uniform() : 0;
      return -6 * v * v - 2 * u * (1 - u) - pit + 0.01 * random.normal();
    });
    return programmeBelow(basis, heights);
  };

  test("10,000 readings, 20,000 rows: every reading stays at or above the target, the cut within its largest", () => {
    const given = boardProgramme(10_000, 1);
    const optimum = optimumOf(given);
    const { columns: n, coefficients, atMost } = given.rows;
    let worst = -Infinity;
    atMost.forEach((limit, i) => {
      let reached = 0;
      for (let j = 0; j < n; j++) reached += coefficients[i * n + j]! * optimum.x[j]!;
      worst = Math.max(worst, reached - limit);
    });
    // Feasible to 1e-9 of heights up to 6 mm; in fact to rounding.
    expect(worst).toBeLessThan(6e-9);
    // Weak duality, without the solver: −b·multipliers bounds every feasible objective from below.
    const proven = -atMost.reduce((sum, limit, i) => sum + limit * optimum.multipliers[i]!, 0);
    near(proven, optimum.objective, 1e-9, "proven least");
    expect(optimum.multipliers.filter((multiplier) => multiplier > 0).length).toBeLessThanOrEqual(n);
  });

  test("many readings take few steps: a hundred boards of 200 readings are done while one waits", () => {
    const boards = Array.from({ length: 100 }, (_, seed) => boardProgramme(200, seed));
    const began = performance.now();
    for (const board of boards) optimumOf(board);
    // Some 1 ms each on an idle machine; thirty times that shows a method gone wrong, not a busy machine.
    expect(performance.now() - began).toBeLessThan(3000);
  });
});
