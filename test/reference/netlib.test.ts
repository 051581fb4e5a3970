/**
 * The linear programme against two of the Netlib problems, far from any board: 32 and 97 variables, equalities among the rows
 * (figures and source: afiro.json, adlittle.json).
 */
import { test } from "vitest";
import { minimise, type Programme } from "../../server/core/maths/linearProgram.ts";
import { agreesToDigits } from "../support/near.ts";
import adlittle from "./adlittle.json" with { type: "json" };
import afiro from "./afiro.json" with { type: "json" };

type Problem = {
  readonly optimum: number;
  readonly columns: readonly {
    readonly cost: number;
    readonly entries: Readonly<Record<string, number | undefined>>;
  }[];
  readonly rows: readonly { readonly name: string; readonly type: string; readonly rhs: number }[];
};

test.each([
  { name: "AFIRO", problem: afiro as Problem },
  { name: "ADLITTLE", problem: adlittle as Problem },
])("$name reaches its published optimum", ({ problem }) => {
  const optimum = minimise(programmeOf(problem));
  if (optimum.outcome !== "optimal") throw new Error(optimum.outcome);
  // Published to eleven digits.
  agreesToDigits(optimum.objective, problem.optimum, 10.5, "optimum");
});

function programmeOf({ columns, rows }: Problem): Programme {
  const atMost: { readonly coefficients: readonly number[]; readonly limit: number }[] = rows.flatMap(
    ({ name, type, rhs }) => {
      const coefficients = columns.map((column) => column.entries[name] ?? 0);
      const below = { coefficients, limit: rhs };
      const above = { coefficients: coefficients.map((entry) => -entry), limit: -rhs };
      return type === "<=" ? [below] : type === ">=" ? [above] : [below, above];
    },
  );
  return {
    objective: columns.map((column) => column.cost),
    rows: {
      columns: columns.length,
      coefficients: Float64Array.from(atMost.flatMap((row) => row.coefficients)),
      atMost: Float64Array.from(atMost, (row) => row.limit),
    },
    bounds: columns.map(() => [0, Infinity] as const),
  };
}
