/**
 * What the plan is towards, through the whole examination: a new board without a hollow, a board's own shape renewed, and a cut map
 * that never goes deeper than its plan. Lengths in mm.
 */
import { describe, expect, test } from "vitest";
import { makeBoard } from "../../../../data/make/board.ts";
import type { Shape } from "../../../../data/make/recipe.ts";
import { plainText } from "../../../../server/reports/plainText.ts";
import { examineFiles } from "../../../support/examineMade.ts";
import { near } from "../../../support/near.ts";
import { type Kind, syntheticBoard } from "../../../support/syntheticBoards.ts";

function examined(kind: Kind, seed: number, worn: boolean, shape: Partial<Shape>, more: readonly [string, string][]) {
  const usual = syntheticBoard(kind, "7 x 11", seed, worn);
  const recipe = {
    ...usual,
    shape: { ...usual.shape, ...shape },
    writing: { ...usual.writing, settings: [...usual.writing.settings, ...more] },
  };
  return examineFiles(makeBoard(recipe).readingsCsv, null);
}

describe("a new board with a camber but no hollow", () => {
  const examination = examined("cello", 5, false, { hollowLowestMm: 0, hollowHighestMm: 0 }, [["new_board", "yes"]]);

  test("is short of hollow under every string, and nobody is sent to look for a bent neck", () => {
    for (const { state } of examination.surface.hollows) expect(["shallow", "humped"]).toContain(state);
    expect(examination.verdict.decision).not.toBe("cause");
    expect(examination.verdict.reasons.map(({ code }) => code)).not.toContain("bent");
  });

  test("is planed to one radius, since a new board may spend a stroke on it", () => {
    expect(examination.planing?.target.arc).toBe("one radius");
  });
});

describe("a board's own shape renewed", () => {
  const examination = examined("cello", 5, true, { radiusNutMm: 58, radiusEndMm: 60 }, [["aim", "own"]]);

  test("is what the plan is towards, and no need is told of its radius", () => {
    const { planing, surface } = examination;
    expect(planing?.aim).toBe("own");
    // Nothing floats: the target takes the fitted radii over.
    near(planing!.target.radiusMm.middle, surface.camberRadiusMm.middle!.value, 1e-9);
    expect(examination.verdict.reasons.map(({ code }) => code)).not.toContain("camber");
    for (const { state } of surface.hollows) expect(state).toBe("within");
  });

  test("is said in the text, where the radii stand", () => {
    const text = plainText(examination).replaceAll(/\s+/g, " ");
    expect(text).toContain("it is the shape aimed at: the board's own, renewed");
    expect(text).toContain("target, the board's own shape renewed: radius 5");
  });
});

test.each([
  ["viola", 9],
  ["bass", 11],
  ["cello", 2],
  ["bass", 3],
] as const)("the cut map of a %s (board %d) goes no deeper than its plan, in unread corners either", (kind, seed) => {
  const { maps, points } = examined(kind, seed, true, {}, []);
  const deepestReadMm = Math.max(...points.map(({ cutMm }) => cutMm!));
  const deepestMapMm = Math.max(...maps!.cutMm.flat().filter((mm) => mm !== null));
  // Beside an outer reading that stands high by its noise, 0.01 mm, the map carries that to the edge as it fades.
  expect(deepestMapMm).toBeLessThan(deepestReadMm + 0.01);
});
