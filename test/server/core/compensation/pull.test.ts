/** The strings' pull: slack readings brought to pitch, and what is uncertain where the pull is not known. Lengths in mm. */
import { describe, expect, test } from "vitest";
import { stringYMm } from "../../../../server/core/board/stringPaths.ts";
import { broughtToPitch, pullUncertaintyMm } from "../../../../server/core/compensation/pull.ts";
import { layStraightedge } from "../../../../server/core/surface/straightedge.ts";
import { near } from "../../../support/near.ts";
import { instrumentFrom } from "../board/boards.ts";
import { evenly, pointGauge, readingsAt, violin } from "../plainBoards.ts";

const lengthMm = violin.boardLengthMm.value;
const slack = { ...pointGauge, tension: "off" as const, pull: { lowestMm: 0.2, highestMm: 0.1 } };

/** Under the string: what a straightedge shows on a flat bar, read slack and brought to pitch. */
function hollowBroughtTo(stringIndex: number, gauge = slack): number {
  const xs = evenly(0, lengthMm, 21);
  const readings = readingsAt(
    xs.map((xMm) => ({ xMm, yMm: stringYMm(violin, stringIndex, xMm) })),
    () => 7,
  );
  const heights = broughtToPitch(readings, violin, gauge).readings.map(({ gaugeMm }) => gaugeMm);
  return layStraightedge(xs, heights).hollowMm;
}

// Heights near 7 are exact to a few units in the sixteenth digit.
const exactMm = 1e-12;

describe("the strings' pull", () => {
  test("under the outer strings is what was measured, and in between in proportion", () => {
    [0.2, 0.2 - 0.1 / 3, 0.1 + 0.1 / 3, 0.1].forEach((pullMm, stringIndex) => {
      near(hollowBroughtTo(stringIndex), pullMm, exactMm);
    });
  });

  test("may lift the middle, where the board is less hollow at pitch", () => {
    near(hollowBroughtTo(0, { ...slack, pull: { lowestMm: -0.05, highestMm: 0 } }), -0.05, exactMm);
  });

  test("moves neither the nut nor the bridge end", () => {
    const readings = readingsAt(
      [
        { xMm: 0, yMm: -8 },
        { xMm: lengthMm, yMm: 12 },
      ],
      () => 7,
    );
    expect(broughtToPitch(readings, violin, slack)).toEqual(readings);
  });

  test.each([
    ["at pitch", { ...slack, tension: "on" as const }],
    ["slack, by nobody knows how much", { ...slack, pull: null }],
    ["nobody said how", { ...slack, tension: "unknown" as const }],
  ])("of strings that were %s leaves the readings as they are", (_, gauge) => {
    const readings = readingsAt([{ xMm: 100, yMm: 3 }], () => 7);
    expect(broughtToPitch(readings, violin, gauge)).toBe(readings);
  });
});

describe("the uncertainty of a hollow for want of knowing the pull", () => {
  const uFor = (kind: string, gauge: typeof slack | typeof pointGauge) =>
    pullUncertaintyMm(gauge, instrumentFrom({ instrument: kind }));

  test("is nothing at pitch", () => {
    expect(uFor("cello", pointGauge)).toBe(0);
  });

  test("is a fiftieth of a millimetre where the pull was measured with feeler gauges", () => {
    // √2 · 0.05/√12 = 0.0204.
    near(uFor("cello", slack), (Math.SQRT2 * 0.05) / Math.sqrt(12), exactMm);
  });

  test.each([
    ["violin", 0.2],
    ["viola", 0.25],
    ["cello", 0.5],
    ["bass", 0.8],
  ])("slack on a %s is that of anything up to %f mm; half the variance where nobody said", (kind, mostMm) => {
    near(uFor(kind, { ...slack, pull: null }) ** 2, mostMm ** 2 / 3, exactMm);
    near(uFor(kind, { ...slack, tension: "unknown" }) ** 2, mostMm ** 2 / 6, exactMm);
  });
});
