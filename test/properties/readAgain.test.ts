/**
 * What adds nothing changes nothing, and what adds readings does no harm: a column left blank, and every place read twice.
 * Twenty seeded boards of every kind and layout. Lengths in mm.
 */
import { beforeAll, describe, expect, test } from "vitest";
import { type MadeBoard, makeBoard } from "../../data/make/board.ts";
import type { Recipe } from "../../data/make/recipe.ts";
import type { Examination } from "../../server/core/examination.ts";
import { twentyRecipes } from "../support/boardInNumbers.ts";
import { differences } from "../support/differences.ts";
import { examineFiles } from "../support/examineMade.ts";

const recipes = twentyRecipes();

describe("a grid", () => {
  test("with a column that nobody filled in is the grid without it", () => {
    const differing = recipes.flatMap(({ name, recipe }) => {
      const csv = makeBoard({ ...recipe, writing: { ...recipe.writing, file: "grid" } }).readingsCsv;
      const [plain, blank] = [csv, withBlankColumn(csv)].map((text) => examineFiles(text, null));
      return differences(blank, plain, 0).map((line) => `${name}: ${line}`);
    });
    // The same readings in the same order: not even rounding differs.
    expect(differing).toEqual([]);
  });
});

describe("a board read twice over, each reading with noise of its own,", () => {
  const twice: { readonly name: string; readonly made: MadeBoard; readonly examination: Examination }[] = [];

  beforeAll(() => {
    for (const { name, recipe } of recipes) {
      const made = makeBoard(readTwice(recipe));
      twice.push({ name, made, examination: examineFiles(made.readingsCsv, null) });
    }
  }, 120_000);

  const breaking = (rule: (board: (typeof twice)[number]) => string | null): readonly string[] =>
    twice.flatMap((board) => {
      const broken = rule(board);
      return broken === null ? [] : [`${board.name}: ${broken}`];
    });

  test("tells how well the gauge repeats", () => {
    // Noise 0.01 and steps of 0.01 (0.0029): 0.0104. Of 60 pairs the standard deviation of s is 9 %; four of these.
    expect(
      breaking(({ examination: { readings } }) =>
        Math.abs(readings.repeatSdMm! - 0.0104) < 0.0038 ? null : String(readings.repeatSdMm),
      ),
    ).toEqual([]);
  });

  test("shows no long waves, having none", () => {
    expect(breaking(({ examination: { surface } }) => (surface.formMm === 0 ? null : `${surface.formMm} mm`))).toEqual(
      [],
    );
  });

  test("has its unworn surface found to the noise of one reading", () => {
    expect(
      breaking(({ made, examination: { points } }) => {
        const squares = points.map(({ unwornMm }, i) => (unwornMm - made.truth.readings[i]!.unwornMm) ** 2);
        const rmsMm = Math.sqrt(squares.reduce((sum, square) => sum + square) / squares.length);
        return rmsMm < 0.01 ? null : `${rmsMm} mm rms`;
      }),
    ).toEqual([]);
  });
});

/** A further line that is named in the header and never read. */
function withBlankColumn(csv: string): string {
  return csv
    .split("\n")
    .map((line) => {
      if (line.startsWith("#") || line === "") return line;
      return line.startsWith("x,") ? `${line},bass edge` : `${line},`;
    })
    .join("\n");
}

function readTwice(recipe: Recipe): Recipe {
  const { crosslinesMm, lines } = recipe.rounds;
  const repeated = crosslinesMm.flatMap((xMm) =>
    lines.map((line) => `${xMm} ${typeof line === "object" ? line.share : line}`),
  );
  return { ...recipe, rounds: { ...recipe.rounds, repeated } };
}
