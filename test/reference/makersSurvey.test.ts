/**
 * Hollow and camber are not independent: a published makers' survey (figures and source: makersSurvey.json).
 */
import { describe, test } from "vitest";
import type { Placement } from "../../server/core/planing/targetSurface.ts";
import { targetShape, workshopFrame } from "../../server/core/planing/targetSurface.ts";
import { hollowOfShape } from "../../server/core/surface/straightedge.ts";
import { instrumentFrom } from "../server/core/board/boards.ts";
import { knownSurface, shapeWith, violinSettings } from "../server/core/plainBoards.ts";
import { near } from "../support/near.ts";
import survey from "./makersSurvey.json" with { type: "json" };

describe.each(survey.spacingEndMm)("a violin's board with outer strings %f mm apart at its end", (spacingEndMm) => {
  // The strings go on straight to the bridge: 328 / 270 of the way.
  const spacingBridgeMm = survey.spacingNutMm + ((spacingEndMm - survey.spacingNutMm) * 328) / 270;
  const violin = instrumentFrom({
    ...violinSettings,
    board_length: "270",
    string_length: "328",
    spacing_nut: String(survey.spacingNutMm),
    spacing_bridge: String(spacingBridgeMm),
  });
  const frame = workshopFrame(knownSurface(shapeWith(), violin), violin);
  const centrelineMm = (radiusMiddleMm: number): number => {
    const placement: Placement = {
      heightMm: 0,
      pitch: 0,
      crownNutMm: 0,
      crownEndMm: 0,
      radiusNutMm: survey.radiusMm,
      radiusMiddleMm,
      radiusEndMm: survey.radiusMm,
      hollowLowestMm: survey.hollowLowestMm,
      hollowHighestMm: survey.hollowHighestMm,
    };
    return hollowOfShape(frame.unworn.plan, targetShape(frame, placement), () => 0).hollowMm;
  };

  test("shows 0.68 on its centreline when 0.75 and 0.25 are asked on one radius of 42", () => {
    // Printed to 0.01; the spacing at the end, not printed, moves it by 0.01.
    near(centrelineMm(survey.radiusMm), survey.centrelineMm, 0.02);
  });

  test("needs a radius near 38 in the middle to show 0.50 there", () => {
    let [low, high] = [34, 42];
    for (let i = 0; i < 40; i++) {
      const middle = (low + high) / 2;
      if (centrelineMm(middle) < survey.askedOnCentrelineMm) low = middle;
      else high = middle;
    }
    // Printed to the whole millimetre.
    near(low, survey.middleRadiusMm, 0.5);
  });
});
