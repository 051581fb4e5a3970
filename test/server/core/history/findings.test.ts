/** An examination brought down to what history needs. Figures by hand from a small examination and from two example boards. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { findingsOf } from "../../../../server/core/history/findings.ts";
import { examineFiles } from "../../../support/examineMade.ts";
import { near } from "../../../support/near.ts";
import { smallExamination } from "../../reports/smallExamination.ts";

const example = (name: string): string =>
  readFileSync(new URL(`../../../../data/examples/${name}`, import.meta.url), "utf8");

describe("the findings of a survey", () => {
  test("hold the deepest place, the cut, the thinnest edge before and after, and how many hollows are right", () => {
    expect(findingsOf(smallExamination)).toMatchObject({
      readings: 77,
      decision: "dress",
      quickLook: null,
      deepest: { depthMm: { value: 0.2149, u: 0.0121 }, atLeast: false, string: "A", note: "B", position: "first" },
      planeOffMm: { value: 0.3412, u: 0.0249 },
      hollows: { within: 1, of: 4 },
      edge: { value: 5.1, u: 0.05, xMm: 290, side: "treble" },
      edgeAfterMm: { value: 4.62, u: 0.06 },
      dressAtMm: 1,
      edgeLimitMm: 1,
      dressingSpendMm: 1,
    });
  });

  test("count a hollow as right only where it is within its range", () => {
    const { surface } = smallExamination;
    const hollows = surface.hollows.map((hollow, i) => ({
      ...hollow,
      state: i < 3 ? ("within" as const) : hollow.state,
    }));
    expect(findingsOf({ ...smallExamination, surface: { ...surface, hollows } }).hollows).toEqual({ within: 3, of: 4 });
    expect(findingsOf({ ...smallExamination, surface: { ...surface, hollows: [] } }).hollows).toBeNull();
  });

  test("tell how deep wear could be that did not show: by chance among the readings, or not worth naming", () => {
    // A tenth of the 1 mm that calls for a dressing there.
    expect(findingsOf(smallExamination).unseenMm).toBe(0.1);
    const noisy = { ...smallExamination, surface: { ...smallExamination.surface, noiseMm: 0.05 } };
    // One of 77 readings below by chance once in a hundred surveys: z(1 − 0.01/77) = 3.65 (normal table); three digits.
    near(findingsOf(noisy).unseenMm!, 3.65 * 0.05, 0.0005);
  });

  test("of a board to dress name what the examination names", () => {
    const examination = examineFiles(example("cello-to-dress.csv"), example("cello-to-dress.thickness.csv"));
    const findings = findingsOf(examination);
    expect(findings.decision).toBe("dress");
    expect(findings.deepest?.depthMm.value).toBe(examination.deepest?.depthMm);
    expect(findings.edgeAfterMm).toEqual(examination.thickness?.edgeAfterMm);
    // Deeper wear than "would not have shown" is what did show.
    expect(findings.deepest!.depthMm.value).toBeGreaterThan(findings.unseenMm!);
  });
});

test("a quick look has no worn place, no cut and no depth that would have shown", () => {
  const findings = findingsOf(examineFiles(example("violin-quick-look.csv"), null));
  expect(findings).toMatchObject({ deepest: null, unseenMm: null, planeOffMm: null, edge: null, edgeAfterMm: null });
  expect(findings.quickLook).not.toBeNull();
});

test("findings are a small object of their own, safe to keep as JSON", () => {
  const findings = findingsOf(smallExamination);
  expect(JSON.parse(JSON.stringify(findings))).toEqual(findings);
  expect(JSON.stringify(findings).length).toBeLessThan(1000);
});
