/** The line that says what is chosen. */
import { expect, test } from "vitest";
import { readoutText } from "../../../web/views/readout.ts";
import { fixtureExamination } from "../fixtureExamination.ts";

const cello = fixtureExamination("cello");

test("where a reading stands, its own wear and cut are said", () => {
  const section = cello.sections[3]!;
  const point = cello.points.find((p) => p.xMm === section.xMm && p.yMm > 10)!;
  expect(readoutText(cello, { string: 3, crossline: 3 })).toBe(
    `A string · ${section.xMm} mm from the nut · C, first position · ${point.wearMm.toFixed(2)} mm lost · ${point.cutMm!.toFixed(2)} mm to take off`,
  );
});

test("repeats of a reading are averaged", () => {
  const section = cello.sections[3]!;
  const point = cello.points.find((p) => p.xMm === section.xMm && p.yMm > 10)!;
  const repeated = { ...cello, points: [...cello.points, { ...point, wearMm: point.wearMm + 0.04 }] };
  expect(readoutText(repeated, { string: 3, crossline: 3 })).toContain(`${(point.wearMm + 0.02).toFixed(2)} mm lost`);
});

test("where none stands, it says that it is between readings", () => {
  expect(readoutText({ ...cello, points: [] }, { string: 3, crossline: 3 })).toContain("mm lost, between readings");
});

test("wear within the noise is no wear, and without a plan there is no cut", () => {
  const unplanned = {
    ...cello,
    profiles: cello.profiles.map((profile) => ({ ...profile, targetMm: null })),
    points: cello.points.map((point) => ({ ...point, cutMm: null })),
  };
  expect(readoutText(unplanned, { string: 0, crossline: 12 })).toMatch(/no wear beyond the noise \(0\.02 mm\)$/);
});
