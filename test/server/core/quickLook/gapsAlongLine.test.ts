/**
 * Gaps under a straightedge, worked by hand, and on seeded boards: does the interval hold what a straightedge truly shows? Lengths in mm.
 */
import { describe, expect, test } from "vitest";
import { lineYMm } from "../../../../data/make/plan.ts";
import { straightedgeGapMm } from "../../../../data/make/straightedge.ts";
import { type Gap, gapsAlongLine, gapUncertaintyMm } from "../../../../server/core/quickLook/gapsAlongLine.ts";
import { near } from "../../../support/near.ts";
import { quickBoard } from "../../../support/quickLookBoards.ts";

const line = { lengthMm: 400, stepMm: 0.05, deepest: 0.5 };
const evenly = (gaps: readonly number[]): readonly Gap[] =>
  gaps.map((gapMm, i) => ({ xMm: (400 * i) / (gaps.length - 1), gapMm }));

/** A few roundings of double precision at 400 mm. */
const rounding = 1e-12;

describe("gaps under a straightedge from nut to bridge end", () => {
  test("0, 0.4, 0.7, 0.4, 0: the hollow is the largest, 0.7, halfway along", () => {
    const { hollowMm, deepestAtMm, endsTaken } = gapsAlongLine(evenly([0, 0.4, 0.7, 0.4, 0]), line);
    near(hollowMm.value, 0.7, rounding, "hollow");
    near(deepestAtMm, 200, rounding, "deepest at");
    expect(endsTaken).toEqual([]);
  });

  test("its uncertainty is one step of the gauge as a rectangle, and half a step where the straightedge rests", () => {
    const { hollowMm } = gapsAlongLine(evenly([0, 0.4, 0.7, 0.4, 0]), line);
    // By hand: 2 · √(0.05²/3 + (0.025²/3)/2) = 0.0612.
    near(hollowMm.u, 0.0612, 5e-5, "u");
  });

  test("between the places taken it is the top of the parabola through three", () => {
    // 4·h·u(1 − u) with h 0.8 at u = 0.2, 0.4, 0.8: the parabola's own top, halfway.
    const parabola = [0, 0.2, 0.4, 0.8, 1].map((u) => ({ xMm: 400 * u, gapMm: 3.2 * u * (1 - u) }));
    const { hollowMm, deepestAtMm } = gapsAlongLine(parabola, line);
    near(hollowMm.value, 0.8, rounding, "hollow");
    near(deepestAtMm, 200, 1e-9, "deepest at");
    // The rise over the largest gap read, 0.032, counts as a rectangle: 2 · √(0.0612²/4 + 0.032²/3) = 0.0715.
    near(hollowMm.u, 0.0715, 1e-4, "u");
  });

  test("one gap alone, with the straightedge resting on both ends", () => {
    const shown = gapsAlongLine([{ xMm: 200, gapMm: 0.6 }], line);
    near(shown.hollowMm.value, 0.6, rounding, "hollow");
    expect(shown.endsTaken).toEqual(["nut", "bridge end"]);
    expect(shown.wear).toEqual([]);
  });

  test("on a hump it rocks: gaps 0.3, 0.1, 0, 0.15, 0.4 are a hump of 0.35", () => {
    // Height in the middle over the line between the ends: (0.3 + 0.4)/2.
    const { hollowMm } = gapsAlongLine(evenly([0.3, 0.1, 0, 0.15, 0.4]), line);
    near(hollowMm.value, -0.35, rounding, "hollow");
  });

  test("a gap taken twice counts once, as the mean", () => {
    const twice = [...evenly([0, 0.4, 0.6, 0.4, 0]), { xMm: 200, gapMm: 0.8 }];
    near(gapsAlongLine(twice, line).hollowMm.value, 0.7, rounding, "hollow");
  });

  test("in any order of the file the same", () => {
    const gaps = evenly([0, 0.4, 0.7, 0.45, 0]);
    expect(gapsAlongLine(gaps.toReversed(), line)).toEqual(gapsAlongLine(gaps, line));
  });
});

describe("local wear under a straightedge", () => {
  test("a smooth hollow shows none", () => {
    const smooth = Array.from({ length: 9 }, (_, i) => ({ xMm: 50 * i, gapMm: 2.8 * (i / 8) * (1 - i / 8) }));
    for (const { wearMm } of gapsAlongLine(smooth, line).wear) {
      // The curve through the others is the very same parabola; what was known beforehand pulls it by less than a hundredth.
      expect(Math.abs(wearMm.value)).toBeLessThan(0.01);
      expect(wearMm.value).toBeLessThan(wearMm.u);
    }
  });

  test("a pit of 0.3 in it stands out, by its depth", () => {
    const pitted = Array.from({ length: 9 }, (_, i) => ({
      xMm: 50 * i,
      gapMm: 2.8 * (i / 8) * (1 - i / 8) + (i === 2 ? 0.3 : 0),
    }));
    const [worst] = gapsAlongLine(pitted, line).wear;
    expect(worst?.xMm).toBe(100);
    near(worst?.wearMm.value ?? 0, 0.3, 0.01, "wear");
    expect(worst?.wearMm.value).toBeGreaterThan(2 * (worst?.wearMm.u ?? 1));
  });

  test("where the straightedge rests nothing is worn", () => {
    const pointed = gapsAlongLine(evenly([0, 0.4, 0.7, 0.4, 0]), line).wear;
    expect(pointed.map(({ xMm }) => xMm)).not.toContain(0);
  });
});

describe("the leaf that was written", () => {
  test("may be the last that goes in or the first that doesn't: one step either way, as a rectangle", () => {
    near(gapUncertaintyMm(0.4, 0.05), 0.05 / Math.sqrt(3), rounding);
  });

  test("where none goes in the gap is less than the thinnest", () => {
    near(gapUncertaintyMm(0, 0.05), 0.025 / Math.sqrt(3), rounding);
  });
});

describe("seeded boards under a straightedge, gaps taken at five places with leaves in steps of 0.05", () => {
  const looks = Array.from({ length: 200 }, (_, seed) => {
    const { name, recipe, made } = quickBoard(seed);
    const { plan } = recipe;
    const path = plan.strings[seed % 2 === 0 ? 0 : plan.strings.length - 1]!;
    const present = (xMm: number): number => {
      const yMm = lineYMm(plan, path, xMm, 3);
      return made.unwornHeightMm(xMm, yMm) - made.wearMm(xMm, yMm);
    };
    const [first, last] = [present(0), present(plan.lengthMm)];
    const gaps = [0.2, 0.35, 0.5, 0.65, 0.8].map((share): Gap => {
      const xMm = Math.round(share * plan.lengthMm);
      const straight = first + ((last - first) * xMm) / plan.lengthMm;
      // The thickest leaf that goes in.
      return { xMm, gapMm: Math.floor(Math.max(0, straight - present(xMm)) / 0.05) * 0.05 };
    });
    const fine = Array.from({ length: 136 }, (_, k) => (plan.lengthMm * k) / 135);
    const truthMm = straightedgeGapMm(fine, fine.map(present));
    const { hollowMm } = gapsAlongLine(gaps, { lengthMm: plan.lengthMm, stepMm: 0.05, deepest: 0.5 });
    return { name, isWorn: seed % 8 >= 4, offMm: hollowMm.value - truthMm, u: hollowMm.u };
  });

  test("show the true hollow of an unworn board within the interval", () => {
    // A rectangle's ± 2 standard uncertainties hold all of it: 100 of 100 seen.
    const unworn = looks.filter(({ isWorn }) => !isWorn);
    expect(unworn.length).toBe(100);
    expect(unworn.filter(({ offMm, u }) => Math.abs(offMm) > u).map(({ name }) => name)).toEqual([]);
  });

  test("never show more hollow than there is; a pit between the places taken can't be seen, and makes it less", () => {
    expect(looks.filter(({ offMm, u }) => offMm > u).map(({ name }) => name)).toEqual([]);
    // Seen: 30 of 100 worn boards have one that matters.
    expect(looks.filter(({ offMm, u }) => offMm < -u).every(({ isWorn }) => isWorn)).toBe(true);
  });
});
