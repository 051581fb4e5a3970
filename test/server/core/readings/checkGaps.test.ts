/**
 * Every small file of gaps, and what holds for all of them.
 */
import { describe, expect, test } from "vitest";
import { linePath } from "../../../../server/core/board/stringPaths.ts";
import { type CheckedGaps, checkGaps } from "../../../../server/core/readings/checkGaps.ts";
import type { ReadingsFile } from "../../../../server/core/readings/readingsFile.ts";
import { readingsFileReader, readReadingsFile } from "../../../../server/core/readings/readReadingsFile.ts";
import { near } from "../../../support/near.ts";
import { type GapsCase, gapsCases } from "./gapsCases.ts";
import { instrumentOf, settingsOf } from "./readingsFromText.ts";

/** Products of a number and its unit: a few roundings of double precision at 300 mm. */
const rounding = 1e-12;
const violin = instrumentOf(settingsOf([]));

function checked(file: ReadingsFile): CheckedGaps {
  return checkGaps(file, violin, settingsOf(file.entries).gauge, 0.05);
}

function expectGaps(answer: CheckedGaps, { gives }: Extract<GapsCase, { gives: object }>): void {
  if (answer.outcome === "faulty") throw new Error(JSON.stringify(answer.faults));
  const { straightedge, template } = answer.gaps;
  const lines = gives.straightedge ?? [];
  expect(straightedge.map(({ row, line }) => [row, line])).toEqual(lines.map(([row, , line]) => [row, line]));
  lines.forEach(([, xMm, line, gapMm], i) => {
    near(straightedge[i]!.xMm, xMm, rounding, "x");
    near(straightedge[i]!.gapMm, gapMm, rounding, "gap");
    const yMm = typeof line === "number" ? line : linePath(violin, line)!.yAtMm(xMm);
    near(straightedge[i]!.yMm, yMm, rounding, "y");
  });
  const arcs = gives.template ?? [];
  expect(template.map(({ row }) => row)).toEqual(arcs.map(([row]) => row));
  arcs.forEach(([, xMm, yMm, gapMm, radiusMm], i) => {
    const one = template[i]!;
    near(one.xMm, xMm, rounding, "x");
    near(one.yMm, yMm, rounding, "y");
    near(one.gapMm, gapMm, rounding, "gap");
    near(one.templateRadiusMm, radiusMm, rounding, "radius");
  });
}

describe("a file of gaps", () => {
  test.each(gapsCases.map((one) => [one.rule, one] as const))("%s", (_, one) => {
    const answer = checked(readReadingsFile(one.text));
    if ("gives" in one) return expectGaps(answer, one);
    const faults = answer.outcome === "faulty" ? answer.faults : [];
    expect(faults.map(({ line, column, code }) => [line, column, code])).toEqual(one.faults);
    for (const { saw, remedy } of faults) expect([saw.length > 3, remedy.length > 10]).toEqual([true, true]);
  });

  test("gives the same in pieces of any size", () => {
    for (const { text, rule } of gapsCases) {
      const reader = readingsFileReader();
      for (const byte of new TextEncoder().encode(text)) reader.push(Uint8Array.of(byte));
      expect(checked(reader.finish()), rule).toEqual(checked(readReadingsFile(text)));
    }
  });

  test("of more than 1,000 rows is told once, and not kept", () => {
    const rows = Array.from({ length: 1_100 }, () => "G,100,0.5").join("\n");
    const answer = checked(readReadingsFile(`line,x,gap\n${rows}`));
    expect(answer.outcome === "faulty" && answer.faults.map(({ code }) => code)).toEqual(["too-many-readings"]);
  });
});
