/** What a newer version says otherwise of the same readings, and what a work achieved: by hand from a small examination. mm. */
import { describe, expect, test } from "vitest";
import type { Examination } from "../../../../server/core/examination.ts";
import { pairOf } from "../../../../server/core/history/pairOf.ts";
import { whatChanged } from "../../../../server/core/history/whatChanged.ts";
import { findingsWith } from "../../../support/historyVisits.ts";
import { near } from "../../../support/near.ts";
import { smallExamination as before } from "../../reports/smallExamination.ts";

const deeper = (depthMm: number, u = before.deepest!.u): Examination => ({
  ...before,
  deepest: { ...before.deepest!, depthMm, u },
});

describe("what changed", () => {
  test("is nothing where the answers are the same, or differ by rounding only", () => {
    expect(whatChanged(before, before)).toEqual([]);
    expect(whatChanged(before, { ...before, version: "9.9.9" })).toEqual([]);
    // 0.2149 reads 0.21 and 0.2152 reads 0.22, but they are 0.0003 apart: a last digit that tipped over.
    expect(whatChanged(before, deeper(0.2152))).toEqual([]);
    // 0.2149 and 0.2111 read the same.
    expect(whatChanged(before, deeper(0.2111))).toEqual([]);
  });

  test("names the measure before and after with units, and whether it moved by more than its uncertainty", () => {
    expect(whatChanged(before, deeper(0.23))).toEqual([
      { what: "the deepest place", before: "0.21 ± 0.02 mm", after: "0.23 ± 0.02 mm", isBeyondU: false },
    ]);
    expect(whatChanged(before, deeper(0.3))[0]).toMatchObject({ after: "0.30 ± 0.02 mm", isBeyondU: true });
  });

  test("tells a decision in words, and a place that came or went", () => {
    const left: Examination = {
      ...before,
      verdict: { ...before.verdict, decision: "leave" },
      deepest: null,
      wornPlaces: [],
      planing: null,
    };
    expect(whatChanged(before, left)).toEqual([
      { what: "the decision", before: "dress", after: "leave as it is", isBeyondU: null },
      { what: "the deepest place", before: "0.21 ± 0.02 mm", after: "not told", isBeyondU: null },
      {
        what: "where the deepest place is",
        before: "on the A string at B, first position",
        after: "no worn place found",
        isBeyondU: null,
      },
      { what: "worn places", before: "2", after: "0", isBeyondU: null },
      { what: "the cut", before: "0.34 ± 0.03 mm", after: "not told", isBeyondU: null },
    ]);
  });

  test("goes through hollows, radii, twist, cut, thickness, dressings left and cautions", () => {
    const { surface, planing, thickness } = before;
    const all: Examination = {
      ...before,
      surface: {
        ...surface,
        camberRadiusMm: { nut: { value: 63.5, u: 0.4 }, middle: { value: 62.04, u: 0.3 }, end: { value: 61, u: 0.4 } },
        hollows: surface.hollows.map((hollow, i) =>
          i === 0 ? { ...hollow, hollowMm: { value: 1.1, u: 0.02 } } : hollow,
        ),
        twistMm: { value: 0.2, u: 0.05 },
      },
      planing: planing && { ...planing, planeOffMm: { ...planing.planeOffMm, value: 0.5 } },
      thickness: thickness && {
        ...thickness,
        edgeAfterMm: { value: 4.5, u: 0.06 },
        centreAfterMm: { value: 5.8, u: 0.06 },
        dressingsLeft: 2,
      },
      cautions: ["Open the windows."],
    };
    expect(whatChanged(before, all).map(({ what, isBeyondU }) => [what, isBeyondU])).toEqual([
      ["the hollow under the C string", true],
      ["the radius at the nut", true],
      ["the radius at the end", true],
      ["the twist", true],
      ["the cut", true],
      ["the thinnest edge left", true],
      ["the wood left over the underside hollow", true],
      ["dressings left", null],
      ["a caution", null],
      ["a caution", null],
    ]);
    expect(whatChanged(before, all)[1]).toMatchObject({ before: "62.0 ± 0.5 mm", after: "63.5 ± 0.4 mm" });
  });
});

describe("what a work achieved", () => {
  const first = findingsWith({ depthMm: 0.3, edgeMm: 5, planMm: 0.4, edgeUMm: 0.03 });

  test("is wood taken against the plan, wear left and hollows right now", () => {
    const pair = pairOf(first, findingsWith({ depthMm: null, edgeMm: 4.62, edgeUMm: 0.03 }));
    expect(pair).toMatchObject({
      plannedCutMm: { value: 0.4, u: 0.03 },
      wearBeforeMm: { value: 0.3, u: 0.02 },
      wearAfterMm: { value: 0, u: 0.03 },
    });
    near(pair.takenMm!.value, 0.38, 1e-12);
    near(pair.takenMm!.u, 0.03 * Math.SQRT2, 1e-12);
    near(pair.plannedLossMm!.value, 0.4, 1e-12);
    near(pair.beyondPlanMm!.value, -0.02, 1e-12);
    expect(pair.says).toEqual([
      "No wear shows any more.",
      "0.38 ± 0.05 mm went at the thinnest edge, as planned.",
      "4 of 4 hollows are right now.",
    ]);
  });

  test("tells more wood gone than planned, and wear that is still over what calls for a dressing", () => {
    const pair = pairOf(first, findingsWith({ depthMm: 0.22, edgeMm: 4.4, edgeUMm: 0.03 }));
    expect(pair.says.slice(0, 2)).toEqual([
      "Wear of 0.22 ± 0.02 mm is left, still over 0.20 mm.",
      "0.60 ± 0.05 mm went at the thinnest edge, 0.20 mm more than planned.",
    ]);
    expect(pairOf(first, findingsWith({ depthMm: 0.1, edgeMm: 4.8 })).says[1]).toContain("0.20 mm less than planned");
  });

  test("says nothing of what was not measured on both sides", () => {
    const pair = pairOf(first, findingsWith({ depthMm: "not looked", findings: { hollows: null } }));
    expect(pair).toMatchObject({ takenMm: null, beyondPlanMm: null, wearAfterMm: null, says: [] });
    expect(pairOf(findingsWith({ edgeMm: 5 }), findingsWith({ edgeMm: 4.7 })).says[1]).toMatch(/thinnest edge\.$/);
  });
});
