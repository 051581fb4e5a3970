/** Whether readings give reason to believe in wear: hardly ever on unworn boards, always where a pit is plain. Lengths in mm. */
import { describe, expect, test } from "vitest";
import { isSurelyWorn, showsWear } from "../../../../server/core/surface/showsWear.ts";
import {
  lines,
  noiseMm,
  places,
  problemWith,
  rivalsOf,
  seededBoard,
  surfaceOf,
  takenFrom,
  type Wear,
} from "./seededBoards.ts";

const seeds = (count: number) => Array.from({ length: count }, (_, k) => k + 1);

/** Flat over three by three readings round a place of the grid. */
const flatPit =
  (row: number, column: number, depthMm: number): Wear =>
  (_, i) =>
    Math.abs(Math.floor(i / lines) - row) <= 1 && Math.abs((i % lines) - column) <= 1 ? depthMm : 0;

/** Everywhere with all nine readings and one more all round it: rows 2 to 8, columns 2 to 4. */
const rowOf = (seed: number) => 2 + ((seed * 5) % 7);
const columnOf = (seed: number) => 2 + (seed % 3);

function asked(seed: number, wear?: Wear) {
  const readings = takenFrom(seededBoard(seed, wear).readings);
  const { worn, unworn } = rivalsOf(readings);
  if (worn === null) throw new Error("no fit with wear");
  return [worn, unworn, readings, problemWith()] as const;
}

describe("of three hundred unworn boards of 77 readings", () => {
  test("at most one in fifty is taken for worn", () => {
    const worn = seeds(300)
      .map((seed) => seed + 1000)
      .filter((seed) => surfaceOf(seededBoard(seed).readings).unwornShare < 1);
    // Of 3000 (seeds 1 to 3000) 49 were, 1.6 %; of these 300 it is 5. Two in a hundred are 6.
    expect(worn.length, `worn: seeds ${worn.join(", ")}`).toBeLessThanOrEqual(6);
  });
});

describe("a pit of five noises, flat over three by three readings inside the board", () => {
  const boards = seeds(100).map((seed) => ({ seed, wear: flatPit(rowOf(seed), columnOf(seed), 5 * noiseMm) }));

  test("is reason to believe in wear wherever it lies, beside the ideal shape", () => {
    expect(boards.filter(({ seed, wear }) => !showsWear(...asked(seed, wear))).map(({ seed }) => seed)).toEqual([]);
  });

  test("is never passed over: it is told as wear, once in a hundred as a long wave that deep", () => {
    const told = boards.map(({ seed, wear }) => surfaceOf(seededBoard(seed, wear).readings));
    const asWear = told.filter(({ unwornShare }) => unwornShare < 1);
    const asWave = told.filter(({ unwornShare, form }) => unwornShare === 1 && form.length > 0);
    expect(asWear.length + asWave.length).toBe(boards.length);
    expect(asWave.length).toBeLessThanOrEqual(1);
  });
});

describe("a reading", () => {
  const lone =
    (depthMm: number): Wear =>
    (_, i) =>
      i === Math.floor(places.length / 2) ? depthMm : 0;

  test("that lies ten noises low by itself is reason to believe in wear", () => {
    expect(seeds(20).every((seed) => showsWear(...asked(seed, lone(10 * noiseMm))))).toBe(true);
  });

  test("a tenth of a millimetre deeper than the bar is deeper than any wave; one of five noises isn't", () => {
    for (const seed of seeds(20)) {
      expect(isSurelyWorn(...asked(seed, lone(0.15 + 4 * noiseMm))), `seed ${seed}, deep`).toBe(true);
      expect(isSurelyWorn(...asked(seed, lone(5 * noiseMm))), `seed ${seed}, shallow`).toBe(false);
    }
  });

  test("that stands high is none", () => {
    expect(isSurelyWorn(...asked(3, lone(-0.3)))).toBe(false);
  });
});
