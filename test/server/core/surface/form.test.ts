/** Long waves as functions of the place, by hand. Lengths in mm. */
import { describe, expect, test } from "vitest";
import { stringYMm } from "../../../../server/core/board/stringPaths.ts";
import { formMm, formModes, noForm, writeFormModes } from "../../../../server/core/surface/form.ts";
import { surfacePlan } from "../../../../server/core/surface/idealSurface.ts";
import { allNear, near } from "../../../support/near.ts";
import { violin } from "../plainBoards.ts";

const plan = surfacePlan(violin);
const modesAt = (xMm: number, yMm: number) => {
  const row = new Float64Array(formModes);
  writeFormModes(plan, xMm, yMm, row, 0);
  return row;
};
const highest = (xMm: number) => stringYMm(violin, violin.strings.length - 1, xMm);

describe("the waves", () => {
  test("are seven along, each with three ways of changing across", () => {
    expect(formModes).toBe(21);
  });

  test("at the nut all stand at their crest: 1, v and v² − 0.4 across", () => {
    // Sixteen digits of cosines and squares.
    allNear(
      modesAt(0, highest(0)),
      Array.from({ length: 7 }, () => [1, 1, 0.6]).flat(),
      1e-14,
      "under the highest string",
    );
    allNear(modesAt(0, -highest(0)), Array.from({ length: 7 }, () => [1, -1, 0.6]).flat(), 1e-14, "under the lowest");
    allNear(modesAt(0, 0), Array.from({ length: 7 }, () => [1, 0, -0.4]).flat(), 1e-14, "midway");
  });

  test("half way the odd ones cross nothing, the even ones stand at trough and crest by turns", () => {
    const half = plan.lengthMm / 2;
    const alongMidway = [...modesAt(half, 0)].filter((_, j) => j % 3 === 0);
    allNear(alongMidway, [-1, 0, 1, 0, -1, 0, 1], 1e-14);
  });

  test("turn by a half, k half-waves on the board's length: the end answers the nut in sign", () => {
    const atEnd = [...modesAt(plan.lengthMm, 0)].filter((_, j) => j % 3 === 0);
    allNear(atEnd, [1, -1, 1, -1, 1, -1, 1], 1e-13);
  });
});

describe("the height of a form", () => {
  test("is nothing where there is none", () => {
    expect(formMm(plan, noForm, 120, 5)).toBe(0);
  });

  test("is the sum of its waves: 0.03 of the fourth and 0.01 of its lean make 0.04 at the nut under the highest string", () => {
    const form = new Float64Array(formModes);
    form[(4 - 2) * 3] = 0.03;
    form[(4 - 2) * 3 + 1] = 0.01;
    near(formMm(plan, form, 0, highest(0)), 0.04, 1e-15);
    near(formMm(plan, form, 0, -highest(0)), 0.02, 1e-15);
    // A quarter of the way along the fourth wave stands at its trough.
    near(formMm(plan, form, plan.lengthMm / 4, 0), -0.03, 1e-15);
  });
});

test("waves are written where they are asked for, and nothing else is touched", () => {
  const row = new Float64Array(formModes + 4).fill(7);
  writeFormModes(plan, 100, 3, row, 2);
  expect([row[0], row[1], row[formModes + 2], row[formModes + 3]]).toEqual([7, 7, 7, 7]);
  allNear(row.slice(2, formModes + 2), modesAt(100, 3), 0);
});
