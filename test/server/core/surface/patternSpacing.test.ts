/** How far apart readings lie in the usual pattern, by hand. Lengths in mm. */
import { expect, test } from "vitest";
import { patternSpacing } from "../../../../server/core/surface/patternSpacing.ts";
import { near } from "../../../support/near.ts";
import { violin } from "../plainBoards.ts";

const meanWidthMm = (violin.widthNutMm.value + violin.widthEndMm.value) / 2;

test("of 77 readings on a violin: an eleventh of its length, a seventh of its mean width", () => {
  const { alongMm, acrossMm } = patternSpacing(violin, 77);
  // Quotients of a few figures.
  near(alongMm, violin.boardLengthMm.value / 11, 1e-12);
  near(acrossMm, meanWidthMm / 7, 1e-12);
});

test("four times as many lie half as far apart both ways", () => {
  const usual = patternSpacing(violin, 77);
  const finer = patternSpacing(violin, 308);
  expect(finer.alongMm).toBe(usual.alongMm / 2);
  expect(finer.acrossMm).toBe(usual.acrossMm / 2);
});
