/** The examination written piece by piece is the same JSON as written at once. */
import { expect, test } from "vitest";
import { examinationAsJson } from "../../../server/reports/examinationAsJson.ts";
import { smallExamination } from "./smallExamination.ts";

const written = (...given: Parameters<typeof examinationAsJson>) => [...examinationAsJson(...given)].join("");

test.each([0, 1, 2, 999, 1000, 1001, 2500])("with %i points", (count) => {
  const points = Array.from({ length: count }, (_, i) => ({ ...smallExamination.points[0]!, row: i }));
  const examination = { ...smallExamination, points };
  expect(JSON.parse(written(examination))).toEqual(examination);
});

test("ends with a line break and holds each field on a line of its own", () => {
  const lines = written(smallExamination).split("\n");
  expect(lines.at(-1)).toBe("");
  for (const field of Object.keys(smallExamination))
    expect(lines.some((line) => line.startsWith(`"${field}":`))).toBe(true);
});
