/**
 * The shape that the workshop has set shows the hollows and radii that it has set. Lengths in mm.
 */
import { describe, expect, test } from "vitest";
import { hollowRange, lineLooked } from "../../../../server/core/quickLook/linesLooked.ts";
import { radiusRange, setShape } from "../../../../server/core/quickLook/setShape.ts";
import { near } from "../../../support/near.ts";
import { instrumentFrom } from "../board/boards.ts";
import { violin, violinSettings } from "../plainBoards.ts";

const middle = ([from, to]: readonly [number, number]) => (from + to) / 2;

describe("the set shape", () => {
  test("shows 0.7 under the lowest string and 0.5 under the highest", () => {
    const set = setShape(violin);
    near(middle(hollowRange(violin, set, lineLooked(violin, "G"))), 0.7, 1e-6);
    near(middle(hollowRange(violin, set, lineLooked(violin, "E"))), 0.5, 1e-6);
  });

  test("shows more on the centreline than the mean under the outer strings, which run over the camber's bulge", () => {
    // The makers' survey: 0.75 and 0.25 outside, 0.68 in the middle on R 42 (16.5 apart at the nut, 31 at the board's end).
    const asked = instrumentFrom({
      ...violinSettings,
      hollow_lowest: "0.75",
      hollow_highest: "0.25",
      spacing_nut: "16.5",
      spacing_bridge: "34.1",
    });
    near(middle(hollowRange(asked, setShape(asked), lineLooked(asked, 0))), 0.68, 0.005);
  });

  test("has the set radius at nut, middle and end, and on the quadratic between", () => {
    const tapered = instrumentFrom({ ...violinSettings, radius_nut: "40", radius_middle: "41", radius_end: "44" });
    const set = setShape(tapered);
    const lengthMm = tapered.boardLengthMm.value;
    near(middle(radiusRange(tapered, set, 0)), 40, 1e-9);
    near(middle(radiusRange(tapered, set, lengthMm / 2)), 41, 1e-9);
    near(middle(radiusRange(tapered, set, lengthMm)), 44, 1e-9);
    // 40 + 4u² at a quarter: 40.25.
    near(middle(radiusRange(tapered, set, lengthMm / 4)), 40.25, 1e-9);
  });

  test("allows the set tolerance either way", () => {
    const [from, to] = radiusRange(violin, setShape(violin), 100);
    expect(to - from).toBeCloseTo(2 * violin.radiusToleranceMm.value, 9);
  });
});
