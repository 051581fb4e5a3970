/** What the plane left, and what the readings can't tell, in a terminal. */
import { expect, test } from "vitest";
import type { SurfaceSummary } from "../../../server/core/examination.ts";
import { plainText } from "../../../server/reports/plainText.ts";
import { smallExamination } from "./smallExamination.ts";

const text = (surface: Partial<SurfaceSummary>) =>
  plainText({ ...smallExamination, surface: { ...smallExamination.surface, ...surface } });
const hump = (string: string) => ({ string, xMm: 163.9, heightMm: { value: 0.041, u: 0.013 } });

test("long waves and a hump are told as workmanship", () => {
  expect(text({ formMm: 0.103, humps: [hump("C")] })).toContain(`Workmanship
  - long waves of ± 0.10 mm: no wear
  - a hump behind a dip, 164 mm from the nut, where the C string may buzz: 0.04
    ± 0.02 mm high
`);
});

test("a hump on a string that is humped from end to end is not told twice, nor waves too low to write", () => {
  expect(smallExamination.surface.hollows.find(({ string }) => string === "A")?.state).toBe("humped");
  expect(text({ formMm: 0.004, humps: [hump("A")] })).not.toContain("Workmanship");
});

test("what the readings can't tell of the shape is told as it was taken", () => {
  expect(text({ assumed: ["no twist"] })).toContain("Not told by these readings, and taken as usual\n  - no twist\n");
  expect(text({ assumed: [] })).not.toContain("taken as usual");
});
