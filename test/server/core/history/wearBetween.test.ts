/**
 * Wear between two surveys: made boards whose wear is known, read once more or worn deeper; and small maps by hand. Lengths in mm.
 */
import { describe, expect, test } from "vitest";
import { type MadeBoard, makeBoard, readAgain } from "../../../../data/make/board.ts";
import type { Recipe } from "../../../../data/make/recipe.ts";
import type { Examination } from "../../../../server/core/examination.ts";
import { type Between, wearBetween } from "../../../../server/core/history/wearBetween.ts";
import { examineFiles } from "../../../support/examineMade.ts";
import { near } from "../../../support/near.ts";
import { syntheticBoard } from "../../../support/syntheticBoards.ts";

type Told = Extract<Between, { told: "wear between" }>;

function told(between: Between): Told {
  if (between.told !== "wear between") throw new Error(between.why);
  return between;
}

const why = (between: Between): string => (between.told === "not comparable" ? between.why : between.says);
const examined = (made: MadeBoard): Examination => examineFiles(made.readingsCsv, null);
const cells = ({ growthMm }: Told): readonly number[] => growthMm.flatMap((row) => row.filter((mm) => mm !== null));

describe("a board read once more without wear between", () => {
  const pairs = (["violin", "cello"] as const).flatMap((kind) =>
    [1, 2, 3].map((seed) => {
      const recipe = syntheticBoard(kind, "7 x 11", seed, seed !== 2);
      const made = makeBoard(recipe);
      const again = readAgain(made, { ...recipe, seed: recipe.seed + 999 });
      return told(wearBetween(examined(made), examined(again)));
    }),
  );

  test("shows no growth: 95 of 100 places within their uncertainty, and none beyond what chance makes of the largest", () => {
    const within = pairs.flatMap((pair) => cells(pair).map((mm) => Math.abs(mm) <= pair.most.growthMm.u));
    expect(within.filter(Boolean).length / within.length).toBeGreaterThan(0.95);
    for (const { most, says } of pairs) {
      expect(most.isBeyondNoise).toBe(false);
      expect(says).toMatch(/^No wear between the visits beyond the readings' noise \(0\.0\d mm\)\.$/);
    }
  });

  test("has a mean growth of nothing within its uncertainty, and a volume that is the mean over the part read", () => {
    for (const pair of pairs) {
      expect(Math.abs(pair.meanMm.value)).toBeLessThan(pair.meanMm.u);
      const cellMm2 = (pair.xMm[1]! - pair.xMm[0]!) * (pair.yMm[1]! - pair.yMm[0]!);
      near(pair.volumeMm3.value, pair.meanMm.value * cells(pair).length * cellMm2, 1e-9);
    }
  });
});

describe("a board that wore on between", () => {
  const deepened = (recipe: Recipe, times: number): Recipe => ({
    ...recipe,
    seed: recipe.seed + 55,
    wear: recipe.wear.map((mark) => ("depthMm" in mark ? { ...mark, depthMm: times * mark.depthMm } : mark)),
  });

  test.each([2, 6, 12])("by 0.2 mm and more shows the growth where it is, as deep as it is (board %i)", (seed) => {
    const recipe = syntheticBoard("cello", "7 x 13", seed, true);
    const [before, after] = [makeBoard(recipe), makeBoard(deepened(recipe, 1.8))];
    const between = told(wearBetween(examined(before), examined(after)));
    const { most } = between;
    const truly = (xMm: number, yMm: number) => after.wearMm(xMm, yMm) - before.wearMm(xMm, yMm);
    expect(most.isBeyondNoise).toBe(true);
    expect(between.says).toContain(`Wore most on the ${most.string} string at ${most.note}`);
    // Readings tell the depth at their places, and the tip fills a little of a pit: its u, and half a hundredth.
    near(most.growthMm.value, truly(most.xMm, most.yMm), most.growthMm.u + 0.005, `board ${seed}`);
    // Nowhere that was read did it wear more by over the noise.
    const deepestTruly = Math.max(...after.truth.readings.map(({ crosslineMm, yMm }) => truly(crosslineMm, yMm)));
    near(most.growthMm.value, deepestTruly, between.noiseMm);
  });

  test("is the reverse looked at the other way round", () => {
    const recipe = syntheticBoard("cello", "7 x 13", 6, true);
    const [before, after] = [examined(makeBoard(recipe)), examined(makeBoard(deepened(recipe, 1.8)))];
    const [forth, back] = [told(wearBetween(before, after)), told(wearBetween(after, before))];
    near(back.meanMm.value, -forth.meanMm.value, 1e-12);
    near(Math.min(...cells(back)), -forth.most.growthMm.value, 1e-12);
  });
});

describe("by hand", () => {
  const made = examined(makeBoard(syntheticBoard("violin", "7 x 11", 2, false)));
  const flat = (mm: number): Examination => ({
    ...made,
    maps: made.maps && {
      ...made.maps,
      wearMm: made.maps.wearMm.map((row) => row.map((at) => (at === null ? null : mm))),
    },
  });

  test("the same depth all over is the growth everywhere, and the mean", () => {
    const between = told(wearBetween(flat(0.1), flat(0.35)));
    for (const mm of cells(between)) near(mm, 0.25, 1e-12);
    near(between.meanMm.value, 0.25, 1e-12);
  });

  test("an earlier map on another grid is read between its nodes", () => {
    const { maps } = made;
    if (maps === null) throw new Error("a survey has a map");
    const slope = (xMm: number, yMm: number) => 0.001 * xMm + 0.002 * yMm;
    const sloping = (every: number): Examination => {
      const xMm = maps.xMm.filter((_, i) => i % every === 0);
      return { ...made, maps: { ...maps, xMm, wearMm: maps.yMm.map((y) => xMm.map((x) => slope(x, y))) } };
    };
    // A plane is its own interpolation.
    for (const mm of cells(told(wearBetween(sloping(3), sloping(1))))) near(mm, 0, 1e-12);
  });

  test("a part of the board that the earlier survey did not read is left blank", () => {
    const half = made.instrument.boardLengthMm.value / 2;
    const nearHalf: Examination = { ...made, points: made.points.filter(({ xMm }) => xMm < half) };
    const between = told(wearBetween(nearHalf, made));
    const step = made.instrument.boardLengthMm.value / made.readings.crosslines;
    between.growthMm.forEach((row) => {
      row.forEach((mm, i) => {
        if (between.xMm[i]! > half + step) expect(mm).toBeNull();
      });
    });
    expect(cells(between).length).toBeLessThan(0.75 * cells(told(wearBetween(made, made))).length);
  });

  test("a later rut that the tip could not bottom makes the growth at least what it is", () => {
    const deepest = { depthMm: 0.5, u: 0.02, xMm: 1, yMm: 1, kind: "string rut", atLeast: true } as const;
    const later = { ...flat(0.5), deepest: { ...deepest, string: "A", note: "B", position: "first" } };
    const between = told(wearBetween(flat(0), later));
    expect(between.atLeast).toBe(true);
    expect(between.says).toContain("or more in a rut that the tip could not bottom");
  });

  test("what can't be compared is told with why", () => {
    expect(why(wearBetween({ ...made, maps: null }, made))).toContain("A quick look has no map");
    const half: Examination = { ...made, instrument: { ...made.instrument, size: "1/2" } };
    expect(why(wearBetween(half, made))).toBe("One visit has it as a violin 1/2, the other as a violin 4/4.");
    const long = { ...made.instrument.boardLengthMm, value: made.instrument.boardLengthMm.value + 5 };
    const longer: Examination = { ...made, instrument: { ...made.instrument, boardLengthMm: long } };
    expect(why(wearBetween(longer, made))).toContain("length or width differs");
    const untied: Examination = { ...made, readings: { ...made.readings, enoughFor: ["hollow", "wear"] } };
    expect(why(wearBetween(made, untied))).toContain("nothing ties its set-ups together");
  });
});
