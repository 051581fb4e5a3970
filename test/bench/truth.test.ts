/**
 * The truth bench's own figures, by hand; and a few boards through all of it.
 */
import { expect, test } from "vitest";
import { makeBoard } from "../../data/make/board.ts";
import { lineYMm } from "../../data/make/plan.ts";
import { wearField } from "../../data/make/wear.ts";
import { near } from "../support/near.ts";
import { benchArguments } from "./truth/arguments.ts";
import { bands, boardsOf, withNoise } from "./truth/benchBoard.ts";
import { readAtEachNoise } from "./truth/boardRead.ts";
import { type BoardRun, boardRun, toolName } from "./truth/boardRun.ts";
import { isWrong } from "./truth/decisions.ts";
import { median, quantile, rms, shareOf, tail } from "./truth/figures.ts";
import { estimators, fittedSurface } from "./truth/fitted.ts";
import { intervalFigures } from "./truth/intervalTables.ts";
import { oracleSurface, spotsRead } from "./truth/oracle.ts";
import { surfaceError } from "./truth/surfaceError.ts";
import { depthError, surfaceFigures } from "./truth/surfaceTables.ts";

/** Rounding of sums of a few decimal fractions. */
const rounding = 1e-12;

test("quantiles lie between neighbours; of fewer than a hundred boards the tail is the worst", () => {
  expect(median([4, 1, 2, 3])).toBe(2.5);
  near(quantile([0, 10], 0.99), 9.9, rounding);
  expect(tail([1, 2, 50])).toBe(50);
  const hundred = Array.from({ length: 101 }, (_, k) => k);
  expect(tail(hundred)).toBe(99);
  near(rms([3, 4]), Math.sqrt(12.5), rounding);
  expect(shareOf([1, 2, 3, 4], (one) => one > 3)).toBe(0.25);
  expect(median([])).toBeNaN();
});

function run(oracleMm: number, toolMm: number, meanMm: number, deepestOffMm: number | null): BoardRun {
  return {
    grid: "7 x 11",
    family: "ideal",
    band: "0 %",
    noiseMm: 0.01,
    scatterMm: 0.01,
    seed: Math.round(toolMm * 1e6),
    refused: false,
    oracle: { rmsMm: oracleMm, meanMm: 0.001 },
    surfaces: { [toolName]: { rmsMm: toolMm, meanMm } },
    deepestOffMm,
    intervals: [],
    decided: null,
  };
}

test("the surface's figures are those of four boards reckoned by hand", () => {
  const runs = [
    run(0.002, 0.002, 0.001, null),
    run(0.002, 0.004, 0.003, 0.01),
    run(0.003, 0.009, 0.001, -0.02),
    run(0.01, 0.05, 0.001, null),
    { ...run(0.01, 0.01, 0.5, null), oracle: null },
  ];
  const figures = surfaceFigures(runs, toolName);
  // Ratios 1, 2, 3 and 5; the fifth has no oracle. The fourth's oracle is not good enough to count for the worst rms.
  expect(figures.measured).toBe(4);
  near(figures.medianRatio, 2.5, rounding);
  near(figures.tailRatio, 5, rounding);
  expect(figures.worstSeed).toBe(50_000);
  near(figures.worstMm, 0.009, rounding);
  // Means above the oracle's: 0, 0.002, 0, 0, that is 0.2 of the noise once in four.
  near(figures.bias, 0.05, rounding);
  near(depthError(runs), Math.sqrt((1 + 4) / 2), rounding);
});

test("the figures of intervals are those of four intervals reckoned by hand", () => {
  const interval = (offMm: number, u: number) => ({ what: "hollow", offMm, u, scatterMm: 0.01 });
  expect(intervalFigures([interval(-0.03, 0.02)]).covered).toBe(0);
  const figures = intervalFigures([
    interval(0.01, 0.02),
    interval(-0.02, 0.02),
    interval(0.03, 0.02),
    interval(0, 0.04),
  ]);
  expect(figures.covered).toBe(0.75);
  // Errors in units of U: 0.5, −1, 1.5, 0; their mean square is 3.5 / 4.
  near(figures.width, 1 / Math.sqrt(0.875), rounding);
  near(figures.biasOfU, 0.25, rounding);
  near(figures.biasOfNoise, 0.5, 1e-12);
  near(figures.medianU, 0.02, rounding);
});

test("too close to call is never wrong, and every other decision is, unless it is the right one", () => {
  expect(isWrong({ right: "dress", said: "borderline" })).toBe(false);
  expect(isWrong({ right: "replace", said: "undecided" })).toBe(false);
  expect(isWrong({ right: "dress", said: "dress" })).toBe(false);
  expect(isWrong({ right: "dress", said: "replace" })).toBe(true);
  expect(isWrong({ right: "leave", said: "cause" })).toBe(true);
});

test("a surface that floats 0.01 mm above the truth everywhere is off by 0.01 mm, rms and mean", () => {
  const [board] = boardsOf("5 x 7", "ideal", [0, 0], 1, 1);
  const truth = makeBoard(board!.recipe).unwornHeightMm;
  const error = surfaceError(board!.recipe.plan, (xMm, yMm) => truth(xMm, yMm) + 0.01, truth);
  // Heights of 20 mm in double precision: rounding of some 1e-15.
  near(error.rmsMm, 0.01, rounding);
  near(error.meanMm, 0.01, rounding);
});

test("the oracle's surface is the unworn board where the gauge makes no errors, and so is every other on an unworn board", () => {
  const [worn] = boardsOf("7 x 11", "ideal", bands["15-30 %"]!, 1, 5);
  const exact = { ...withNoise(worn!.recipe, 0, 1), probe: { tipRadiusMm: 1, noiseMm: 0, resolutionMm: 1e-9 } };
  const made = makeBoard(exact);
  // The board is turned as a body and its hollow a leaned parabola, the family shifts its crown and has a curve of its own: the two
  // differ by about a micrometre; and wear of less than two counts as none.
  expect(surfaceError(exact.plan, oracleSurface(made, exact)!, made.unwornHeightMm).rmsMm).toBeLessThan(0.0015);
  const unworn = { ...exact, wear: [] };
  const madeUnworn = makeBoard(unworn);
  for (const [name, estimator] of Object.entries(estimators)) {
    const surface = fittedSurface(estimator, madeUnworn, unworn)!;
    expect(surfaceError(exact.plan, surface, madeUnworn.unwornHeightMm).rmsMm, name).toBeLessThan(0.0015);
  }
});

test("a seed is a board, whichever other boards its cell holds; the kinds come by turns", () => {
  const four = boardsOf("7 x 11", "ideal", bands["15-30 %"]!, 4, 48);
  expect(boardsOf("7 x 11", "ideal", bands["15-30 %"]!, 1, 50)[0]).toEqual(four[2]);
  expect(four.map(({ asked }) => asked.kind).sort()).toEqual(["bass", "cello", "viola", "violin"]);
});

test("an oracle with hardly more readings than numbers to find is none", () => {
  const [board] = boardsOf("3 x 5", "ideal", [0, 0], 1, 1);
  const made = makeBoard(board!.recipe);
  const worn = (count: number) => ({
    ...made,
    truth: {
      ...made.truth,
      readings: made.truth.readings.map((one, i) => (i < count ? { ...one, shownMm: 0.1 } : one)),
    },
  });
  // Ten numbers, and at least twelve readings: eleven are too few, fifteen are enough.
  expect(oracleSurface(worn(4), board!.recipe)).toBeNull();
  expect(oracleSurface(worn(0), board!.recipe)).not.toBeNull();
});

test("a reading that shows two micrometres of wear is not the oracle's", () => {
  const [board] = boardsOf("7 x 11", "ideal", bands["15-30 %"]!, 1, 5);
  const made = makeBoard(board!.recipe);
  const shownMm = made.truth.readings.map((reading) => reading.shownMm);
  expect(spotsRead(made).map(({ isUnworn }) => isUnworn)).toEqual(shownMm.map((shown) => shown < 0.002));
  // Some readings lie on the rims of pits, where the bound decides.
  expect(shownMm.filter((shown) => shown > 0.002 && shown < 0.02).length).toBeGreaterThan(0);
});

test("every estimator but ordinary least squares comes at least three times nearer than it on a worn board", () => {
  const [board] = boardsOf("7 x 11", "ideal", bands["15-30 %"]!, 1, 5);
  const recipe = withNoise(board!.recipe, 0.005, 1);
  const made = makeBoard(recipe);
  const offMm = Object.entries(estimators).map(([name, estimator]) => {
    const surface = fittedSurface(estimator, made, recipe)!;
    return [name, surfaceError(recipe.plan, surface, made.unwornHeightMm).rmsMm] as const;
  });
  const sunkMm = offMm.find(([name]) => name.includes("ordinary"))![1];
  const near = offMm.filter(([, rmsMm]) => rmsMm < sunkMm / 3).map(([name]) => name);
  expect(near).toEqual(Object.keys(estimators).filter((name) => !name.includes("ordinary")));
});

test("the bench's boards are worn as much as asked, and no deeper than 0.7 mm", () => {
  for (const [band, share] of Object.entries(bands)) {
    // Among these are boards (61, 66, 67) whose marks would add up to more than 0.7 mm.
    for (const { recipe } of boardsOf("7 x 11", "ideal", share, 12, 60)) {
      const { plan, rounds } = recipe;
      const wearMm = wearField(plan, recipe.wear);
      const depths = rounds.crosslinesMm.flatMap((xMm) =>
        rounds.lines.map((line) => wearMm(xMm, lineYMm(plan, line, xMm, rounds.edgeInsetMm))),
      );
      const wornReadings = depths.filter((depthMm) => depthMm >= 0.002).length;
      const worn = wornReadings / depths.length;
      expect(recipe.wear.length, band).toBeLessThanOrEqual(wornReadings);
      expect(worn, band).toBeGreaterThanOrEqual(share[0]);
      expect(worn, band).toBeLessThanOrEqual(share[1]);
      expect(Math.max(...depths)).toBeLessThanOrEqual(0.7);
    }
  }
});

test("a board goes through all of the bench", () => {
  const [board] = boardsOf("5 x 7", "ideal", bands["15-30 %"]!, 1, 3);
  const [read] = readAtEachNoise(board!, true);
  const { surfaces, oracle, intervals } = boardRun(read!, "15-30 %", { estimators: true, examination: true });
  expect(Object.keys(surfaces)).toEqual([toolName, ...Object.keys(estimators)]);
  // Noise 0.005 on some thirty readings and ten numbers: a few micrometres.
  expect(oracle!.rmsMm).toBeLessThan(0.02);
  expect(new Set(intervals.map(({ what }) => what))).toContain("plane-off");
});

test("the bench takes whole numbers and known parts, and says what it takes otherwise", () => {
  expect(benchArguments(["--seed", "7", "--grids", "7x11"])).toMatchObject({ seed: 7, grids: ["7 x 11"] });
  expect(() => benchArguments(["--boards", "many"])).toThrow("--boards takes a whole number, not many");
  expect(() => benchArguments(["--parts", "all"])).toThrow("--parts takes surfaces");
});
