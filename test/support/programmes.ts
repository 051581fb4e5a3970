/**
 * Random linear programmes of several kinds, for comparison with a second implementation, and the text format it reads.
 */
import type { Programme } from "../../server/core/maths/linearProgram.ts";
import type { SeededRandom } from "../../server/core/maths/seededRandom.ts";

/**
 * One of: a general programme with mixed bounds; one of small whole numbers with rows repeated (many corners coincide);
 * a target below random heights, all variables free; a programme without a feasible point; one that may run off.
 */
export function randomProgramme(random: SeededRandom, kind: number): Programme {
  const whole = (from: number, to: number) => from + Math.floor(random.uniform() * (to - from + 1));
  const n = whole(1, 10);
  const m = kind % 5 === 4 ? whole(1, 8) : whole(1, 40);
  const small = kind % 5 === 1;
  const number = () => (small ? whole(-3, 3) : 10 * random.normal());
  const coefficients = Float64Array.from({ length: m * n }, number);
  // A point x₀ that satisfies every row, so that most kinds are feasible.
  const inside = Float64Array.from({ length: n }, number);
  const room = () => (random.uniform() < 0.3 ? 0 : small ? whole(0, 5) : 10 * random.uniform());
  const atMost = Float64Array.from({ length: m }, (_, i) => {
    let reached = 0;
    for (let j = 0; j < n; j++) reached += coefficients[i * n + j]! * inside[j]!;
    return reached + room();
  });

  if (kind % 5 === 1 && m > 3) {
    coefficients.copyWithin(n, 0, n);
    atMost[1] = atMost[0]!;
  }
  if (kind % 5 === 3 && m > 1) {
    coefficients.set(
      coefficients.subarray(0, n).map((entry) => -entry),
      n,
    );
    atMost[1] = -atMost[0]! - 1 - room();
  }
  const bounds = Array.from({ length: n }, (_, j): readonly [number, number] => {
    const [lower, upper] = [inside[j]! - room(), inside[j]! + room()];
    const choice = kind % 5 === 4 ? whole(0, 3) : kind % 5 === 2 ? 0 : whole(1, 4);
    return [
      [-Infinity, Infinity],
      [lower, Infinity],
      [-Infinity, upper],
      [lower, upper],
      [inside[j]!, inside[j]!],
    ][choice] as [number, number];
  });
  if (kind % 5 === 2) return belowRandomHeights(random, n, m, inside);
  return { objective: Array.from({ length: n }, number), rows: { columns: n, coefficients, atMost }, bounds };
}

function belowRandomHeights(random: SeededRandom, terms: number, readings: number, shape: Float64Array): Programme {
  const columns = terms + 1;
  const coefficients = new Float64Array(2 * readings * columns);
  const atMost = new Float64Array(2 * readings);
  for (let i = 0; i < readings; i++) {
    const place = random.uniform();
    let height = random.normal();
    for (let j = 0; j < terms; j++) {
      const basis = Math.cos(Math.PI * j * place);
      height += basis * shape[j]!;
      coefficients[i * columns + j] = basis;
      coefficients[(readings + i) * columns + j] = -basis;
    }
    coefficients[(readings + i) * columns + terms] = -1;
    atMost[i] = height;
    atMost[readings + i] = -height;
  }
  const objective = [...Array<number>(terms).fill(0), 1];
  return {
    objective,
    rows: { columns, coefficients, atMost },
    bounds: objective.map((_, j): readonly [number, number] => [j === terms ? 0 : -Infinity, Infinity]),
  };
}

/** The programme in the "LP" text format: variables x0, x1, …; rows r0, r1, … */
export function asLpText({ objective, rows, bounds }: Programme): string {
  const n = rows.columns;
  const sum = (entries: ArrayLike<number>) =>
    Array.from(entries, (entry, j) => `${entry < 0 ? "-" : "+"} ${Math.abs(entry)} x${j}`).join(" ");
  const rowTexts = Array.from(
    rows.atMost,
    (limit, i) => ` r${i}: ${sum(rows.coefficients.subarray(i * n, (i + 1) * n))} <= ${limit}`,
  );
  const end = (bound: number) => (Number.isFinite(bound) ? `${bound}` : bound < 0 ? "-inf" : "+inf");
  const boundTexts = bounds.map(([lower, upper], j) => ` ${end(lower)} <= x${j} <= ${end(upper)}`);
  return ["Minimize", ` cost: ${sum(objective)}`, "Subject To", ...rowTexts, "Bounds", ...boundTexts, "End", ""].join(
    "\n",
  );
}
