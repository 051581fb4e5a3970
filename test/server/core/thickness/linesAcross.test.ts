/**
 * Unworn boards of every kind read on so many lines evenly across, at constant y or fanning out with the board, with the default rut:
 * an ordinary survey gets a plain answer. Eleven crosslines; lengths in mm.
 */
import { describe, expect, test } from "vitest";
import { makeBoard } from "../../../../data/make/board.ts";
import type { Line } from "../../../../data/make/recipe.ts";
import type { Examination } from "../../../../server/core/examination.ts";
import { examineFiles } from "../../../support/examineMade.ts";
import { type Kind, syntheticBoard } from "../../../support/syntheticBoards.ts";

const kinds: readonly Kind[] = ["violin", "viola", "cello", "bass"];
type Layout = "constant y" | "shares";

function readOn(kind: Kind, count: number, layout: Layout): Examination {
  const unworn = syntheticBoard(kind, "7 x 11", 12, false);
  const insetMm = 3;
  const halfMm = unworn.plan.widthNutMm / 2 - insetMm;
  const lines = Array.from({ length: count }, (_, k): Line => {
    const share = (2 * k) / (count - 1) - 1;
    return layout === "shares" ? { share } : Math.round(share * halfMm * 100) / 100;
  });
  const settings = unworn.writing.settings.filter(([key]) => key !== "rut_width");
  const recipe = { ...unworn, rounds: { ...unworn.rounds, lines }, writing: { ...unworn.writing, settings } };
  return examineFiles(makeBoard(recipe).readingsCsv, null);
}

const layouts: readonly Layout[] = ["constant y", "shares"];

describe.each(kinds)("an unworn %s", (kind) => {
  test.each([5, 6, 7, 9, 11])(
    "read on %i lines is left alone; what could hide between them is told and no more",
    (count) => {
      for (const layout of layouts) {
        const { verdict, readings, cautions } = readOn(kind, count, layout);
        expect(verdict.decision, layout).toBe("leave");
        const told = cautions.filter((one) => one.includes("could hide"));
        expect(told.length, layout).toBe(readings.hiddenRutMm === null ? 0 : 1);
        expect(verdict.nextReading?.says ?? "").not.toContain("lies on its path");
      }
    },
  );

  test("read on three lines is no plain leave: two strings run midway between lines", () => {
    for (const layout of layouts) {
      const { verdict, cautions } = readOn(kind, 3, layout);
      expect(verdict.decision, layout).toBe("undecided");
      expect(verdict.reasons.map(({ code }) => code)).toContain("coarse");
      expect(cautions.join()).not.toContain("could hide");
      expect(verdict.nextReading!.says).toContain("no reading lies on its path");
    }
  });
});
