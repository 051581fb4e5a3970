/**
 * Tip compensation on whole boards, against a ball lowered numerically: where nothing is worn, a compensated reading is the true
 * surface's height at the place where the ball truly touches. The generator's shape, wear and ball share nothing with the tool.
 * Read without noise or rounding. Lengths in mm.
 */
import { describe, expect, test } from "vitest";
import { type MadeBoard, makeBoard, type ReadingTruth } from "../../data/make/board.ts";
import type { Recipe } from "../../data/make/recipe.ts";
import { examineFiles } from "../support/examineMade.ts";
import { type Kind, syntheticBoard } from "../support/syntheticBoards.ts";
import { withSettings } from "../support/withSettings.ts";

const kinds: readonly Kind[] = ["violin", "viola", "cello", "bass"];
const boards = kinds.flatMap((kind) => [0.5, 1, 1.5, 3].map((tipRadiusMm) => ({ kind, tipRadiusMm })));

describe.each(boards)("a worn $kind read with a tip of $tipRadiusMm", ({ kind, tipRadiusMm }) => {
  const made = boardRead(kind, tipRadiusMm);
  const { points } = examineFiles(made.readingsCsv, null);
  const unworn = [...points.keys()].filter((i) => isUnwornRound(made, made.truth.readings[i]!, tipRadiusMm));
  const worst = (offMm: (i: number) => number) => Math.max(...unworn.map((i) => Math.abs(offMm(i))));

  test("has every unworn reading put back on the true surface", () => {
    expect(unworn.length).toBeGreaterThan(points.length / 2);
    const offMm = worst((i) => points[i]!.heightMm - made.unwornHeightMm(points[i]!.xMm, points[i]!.yMm));
    // A thousandth is promised. The slopes are those of a fit good to a few thousandths over half the board's width, and a ball
    // follows the surface, so that its touching place being off by 1e-3 only counts with the square of that over the tip: 1e-6.
    // The readings are written to 1e-7, the lowered ball rests to 1e-6.
    expect(offMm).toBeLessThan(5e-6);
  });

  test("has every touching place found", () => {
    const asideMm = worst((i) => {
      const { touchXMm, touchYMm } = made.truth.readings[i]!;
      return Math.hypot(points[i]!.xMm - touchXMm, points[i]!.yMm - touchYMm);
    });
    // The lowered ball settles to a thousandth along each axis; slopes of the fit add as much times the tip.
    expect(asideMm).toBeLessThan(5e-3);
  });

  test("would read far too high without it", () => {
    const highMm = worst((i) => {
      const { exactMm, crosslineMm, yMm } = made.truth.readings[i]!;
      return exactMm - made.unwornHeightMm(crosslineMm, yMm);
    });
    expect(highMm).toBeGreaterThan(0.02);
  });
});

function boardRead(kind: Kind, tipRadiusMm: number): MadeBoard {
  const board = syntheticBoard(kind, "7 x 11", 300 + 10 * tipRadiusMm, true);
  const recipe: Recipe = {
    ...board,
    probe: { tipRadiusMm, noiseMm: 0, resolutionMm: 1e-7 },
    writing: { ...withSettings(board.writing, { tip_radius: tipRadiusMm, resolution: 0 }), decimals: 7 },
  };
  return makeBoard(recipe);
}

/** Nothing is worn under the whole ball. */
function isUnwornRound({ wearMm }: MadeBoard, { crosslineMm, yMm }: ReadingTruth, tipRadiusMm: number): boolean {
  const steps = [-1, -0.75, -0.5, -0.25, 0, 0.25, 0.5, 0.75, 1].map((share) => share * tipRadiusMm);
  return steps.every((along) => steps.every((across) => wearMm(crosslineMm + along, yMm + across) === 0));
}
