/** The workshop's own templates compared, on one of the example boards (made by the independent generator). */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { examine } from "../../../../server/core/examine.ts";
import { readReadingsFile } from "../../../../server/core/readings/readReadingsFile.ts";
import { readThicknessFile } from "../../../../server/core/readings/readThicknessFile.ts";
import { loadInstrumentTable } from "../../../../server/instrumentTable.ts";
import { near } from "../../../support/near.ts";

function examinedWith(settings: Readonly<Record<string, string>>) {
  const text = (name: string) => readFileSync(new URL(`../../../../data/examples/${name}`, import.meta.url), "utf8");
  const answer = examine({
    readings: readReadingsFile(text("cello-to-dress.csv")),
    thickness: readThicknessFile(text("cello-to-dress.thickness.csv")),
    rail: null,
    settings: Object.entries(settings).map(([key, value]) => ({ key, value, where: "settings" as const, line: null })),
    table: loadInstrumentTable(),
    version: "test",
  });
  if (answer.outcome === "faulty") throw new Error("faulty");
  return answer.examination;
}

const { planing } = examinedWith({ templates: "63 65 68" });

test("each template is answered, in the order given, and the board's own radius costs least", () => {
  expect(planing?.templates.map(({ radiusMm }) => radiusMm)).toEqual([63, 65, 68]);
  const [rounder, own, flatter] = planing!.templates.map(({ planeOffMm }) => planeOffMm);
  expect(own).toBeLessThan(rounder!);
  expect(own).toBeLessThan(flatter!);
});

test("one radius all along costs no less than radii free within their band", () => {
  for (const { planeOffMm } of planing!.templates) {
    expect(planeOffMm).toBeGreaterThanOrEqual(planing!.planeOffMm.ofReadings - 1e-6);
  }
});

test("a template costs what the plan costs that is set to its radius, with no band", () => {
  const set = { radius_nut: "63", radius_middle: "63", radius_end: "63", radius_band: "0" };
  // The plan itself: its own deepest cut over the readings and edges, of which the optimum may be 0.003 mm less.
  near(planing!.templates[0]!.planeOffMm, examinedWith(set).planing!.planeOffMm.ofReadings, 0.003);
});
