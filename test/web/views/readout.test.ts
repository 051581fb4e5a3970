/** The line that says what is chosen. */
import { expect, test } from "vitest";
import { choiceAt } from "../../../web/chart/choice.ts";
import { readoutText } from "../../../web/views/readout.ts";
import { fixtureExamination } from "../fixtureExamination.ts";

const cello = fixtureExamination("cello");

test("where a reading stands, its own wear and cut are said", () => {
  const section = cello.sections[3]!;
  const point = cello.points.find((p) => p.xMm === section.xMm && p.yMm > 10)!;
  expect(readoutText(cello, { string: 3, crossline: 3, readAtMm: null })).toBe(
    `A string · ${section.xMm} mm from the nut · C, first position · ${point.wearMm.toFixed(2)} mm lost · ${point.cutMm!.toFixed(2)} mm to take off`,
  );
});

test("a reading pointed at beside a string is said, not what the string's path has there", () => {
  const beside = cello.points.find((p) => p.xMm === cello.sections[3]!.xMm && Math.abs(p.yMm) < 1)!;
  const choice = choiceAt(cello, [beside.xMm + 2, beside.yMm + 0.5]);
  expect(choice).toMatchObject({ crossline: 3, readAtMm: beside.yMm });
  const marked = { ...cello, points: cello.points.map((p) => (p === beside ? { ...p, wearMm: 0.77 } : p)) };
  expect(readoutText(marked, choice)).toMatch(/^beside the \w string .* 0\.77 mm lost · /);
});

test("neighbours two millimetres off don't water a reading down", () => {
  const section = cello.sections[3]!;
  const point = cello.points.find((p) => p.xMm === section.xMm && p.yMm > 10)!;
  const neighbour = { ...point, givenXMm: point.givenXMm + 1.5, xMm: point.xMm + 1.5, wearMm: 0 };
  const scan = { ...cello, points: [neighbour, ...cello.points] };
  expect(readoutText(scan, { string: 3, crossline: 3, readAtMm: null })).toContain(
    `${point.wearMm.toFixed(2)} mm lost · `,
  );
});

test("in a place that may be deeper than it reads, the reading is the least", () => {
  const section = cello.sections[3]!;
  const point = cello.points.find((p) => p.xMm === section.xMm && p.yMm > 10)!;
  const wornPlaces = cello.wornPlaces.map((place) => ({ ...place, atLeast: true }));
  expect(readoutText({ ...cello, wornPlaces }, { string: 3, crossline: 3, readAtMm: null })).toContain(
    ` · at least ${point.wearMm.toFixed(2)} mm lost`,
  );
});

test("repeats of a reading are averaged, and the deepest of them is said too", () => {
  const section = cello.sections[3]!;
  const point = cello.points.find((p) => p.xMm === section.xMm && p.yMm > 10)!;
  const repeated = { ...cello, points: [...cello.points, { ...point, wearMm: point.wearMm + 0.04 }] };
  expect(readoutText(repeated, { string: 3, crossline: 3, readAtMm: null })).toContain(
    `${(point.wearMm + 0.02).toFixed(2)} mm lost (mean of 2 readings, the deepest ${(point.wearMm + 0.04).toFixed(2)})`,
  );
});

test("where none stands, it says that it is between readings", () => {
  expect(readoutText({ ...cello, points: [] }, { string: 3, crossline: 3, readAtMm: null })).toContain(
    "mm lost, between readings",
  );
});

test("wear within the noise is no wear, and without a plan there is no cut", () => {
  const unplanned = {
    ...cello,
    profiles: cello.profiles.map((profile) => ({ ...profile, targetMm: null })),
    points: cello.points.map((point) => ({ ...point, cutMm: null })),
  };
  expect(readoutText(unplanned, { string: 0, crossline: 12, readAtMm: null })).toMatch(
    /no wear beyond the noise \(0\.02 mm\)$/,
  );
});
