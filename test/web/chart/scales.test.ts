/** Scales of the drawing: one x, stated factors, the plan true when near enough. */
import { expect, test } from "vitest";
import { exaggeration, levelled, planScales } from "../../../web/chart/scales.ts";
import { fixtureExamination } from "../fixtureExamination.ts";

const margins = { left: 40, right: 136, top: 46, bottom: 34 };

test.each([
  ["violin", 1.5],
  ["cello", 2.5],
  ["bass", 2.5],
] as const)("a %s is drawn with widths × %d on a sheet of 1000 px, to scale both ways", (kind, factor) => {
  const { instrument } = fixtureExamination(kind);
  const scales = planScales(instrument, 1000, margins);
  expect(scales.widthFactor).toBe(factor);
  const along = scales.x(1) - scales.x(0);
  const across = scales.y(0) - scales.y(1);
  expect(across / along).toBeCloseTo(factor, 9);
  expect(scales.x(0)).toBe(40);
  expect(scales.x(instrument.boardLengthMm.value)).toBeCloseTo(864, 9);
});

test("drawn near enough, the plan is true, and never runs off the board's end", () => {
  const { instrument } = fixtureExamination("cello");
  const scales = planScales(instrument, 1000, margins, { times: 4, fromMm: 560 });
  expect(scales.widthFactor).toBe(1);
  expect(scales.x.domain()[1]).toBeCloseTo(580, 9);
});

test("an exaggeration is a round figure that just fits its row", () => {
  expect(exaggeration(1.6, 60, 1.42)).toBe(25);
  expect(1.6 * 1.42 * 25).toBeLessThanOrEqual(60);
  expect(1.6 * 1.42 * 30).toBeGreaterThan(60);
});

test("a profile is levelled on the ends of its unworn surface", () => {
  const profile = fixtureExamination("cello").profiles[0]!;
  const unworn = levelled(profile)(profile.unwornMm);
  expect(unworn[0]).toBeCloseTo(0, 12);
  expect(unworn.at(-1)).toBeCloseTo(0, 12);
  expect(Math.min(...unworn)).toBeLessThan(-1);
});
