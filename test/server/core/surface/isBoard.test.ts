/** What can be no board's surface, however well it fits. Lengths in mm. */
import { expect, test } from "vitest";
import { surfacePlan } from "../../../../server/core/surface/idealSurface.ts";
import { whyNoBoard } from "../../../../server/core/surface/isBoard.ts";
import { fitUnwornSurface } from "../../../../server/core/surface/unwornSurface.ts";
import { evenly, pointGauge, readingsAt, sevenLines, shapeWith, violin } from "../plainBoards.ts";

const plan = surfacePlan(violin);

test("an arched and hollow surface with readings on it is a board", () => {
  expect(whyNoBoard(plan, shapeWith(), 0.8, 0.02)).toBeNull();
});

test("one that is too flat or too round across, too steep, bare of readings, or far from most of them is none, and why", () => {
  expect(whyNoBoard(plan, shapeWith({ radiusMiddleMm: 1200 }), 0.8, 0.02)).toContain("arched");
  expect(whyNoBoard(plan, shapeWith({ radiusNutMm: 9 }), 0.8, 0.02)).toContain("arched");
  expect(whyNoBoard(plan, shapeWith({ pitch: 0.3 }), 0.8, 0.02)).toContain("steeply");
  expect(whyNoBoard(plan, shapeWith(), 0.2, 0.02)).toContain("hardly any");
  expect(whyNoBoard(plan, shapeWith(), 1, 0.52)).toContain("scatter by 0.5 mm");
});

test("heights that stand in the wrong order are no board", () => {
  const places = sevenLines(violin, evenly(5, 265, 11));
  // Every twenty-ninth of seventy-seven heights between 8 and 10 mm: far from any arch.
  const answer = fitUnwornSurface(
    readingsAt(places, (_, i) => 8 + ((i * 29) % 77) / 38.5),
    violin,
    pointGauge,
  );
  expect(answer.outcome).toBe("not-fitted");
});
