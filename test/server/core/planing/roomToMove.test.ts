/**
 * What must hold of any least cut, whatever the board: more room never costs wood, more readings never save any, and an allowance
 * is taken everywhere. And the bounds that press, and the widening that keeps a board, against trying it. Lengths in mm.
 */
import { describe, expect, test } from "vitest";
import { smallestDeepestCut } from "../../../../server/core/planing/leastCut.ts";
import { type CutPlan, deepestCutWithoutMm, planBoard } from "../../../../server/core/planing/planingPlan.ts";
import { pressingBounds } from "../../../../server/core/planing/pressingBounds.ts";
import { wideningOf } from "../../../../server/core/planing/wideningThatKeeps.ts";
import { heightMm } from "../../../../server/core/surface/idealSurface.ts";
import { near } from "../../../support/near.ts";
import { type BoundFigure, type WornPlan, workshopJob, wornPlan } from "./wornPlan.ts";

const seeds = Array.from({ length: 12 }, (_, k) => k + 1);

/** Solved until no place moves by more than 1e-5, so that less than a tenth of that is left of the depth; twice over. */
const solvedMm = 2e-6;

function leastMm({ task }: WornPlan, places = task.places): number {
  const least = smallestDeepestCut({
    ...task.choice,
    allowanceMm: task.allowanceMm,
    places: places.map(({ xMm, yMm, presentMm }) => ({ xMm, yMm, presentMm, spareMm: 0, capMm: null })),
  });
  if (least === null) throw new Error("no target");
  return least.deepestMm;
}

function planOf({ task }: WornPlan): CutPlan {
  const plan = planBoard(task);
  if (plan === null) throw new Error("no plan");
  return plan;
}

const bounds: readonly (readonly [BoundFigure, number, number])[] = [
  ["projectionBoundMm", 0.2, 1],
  ["crownBoundMm", 0.2, 1.5],
  ["radiusBandMm", 0.3, 2],
  ["hollowBandMm", 0.02, 0.15],
];

describe("room to move", () => {
  test.each(bounds)("more of %s never deepens the least cut", (figure, narrow, wide) => {
    for (const seed of seeds) {
      const steps = [narrow, (narrow + wide) / 2, wide].map((value) =>
        leastMm(wornPlan(seed, { figures: { [figure]: value } })),
      );
      expect(steps[1]!, `board ${seed}`).toBeLessThanOrEqual(steps[0]! + solvedMm);
      expect(steps[2]!, `board ${seed}`).toBeLessThanOrEqual(steps[1]! + solvedMm);
    }
  });

  test("however far the crown may stand aside, the radii asked for are kept", () => {
    const plain = wornPlan(1, { figures: { radiusBandMm: 0 } });
    const wide = wornPlan(1, { figures: { radiusBandMm: 0, crownBoundMm: 20 } });
    expect(wide.task.choice.bounds.radiusEndMm).toEqual(plain.task.choice.bounds.radiusEndMm);
    expect(leastMm(wide)).toBeLessThanOrEqual(leastMm(plain) + solvedMm);
  });

  test("one reading more never makes the least cut shallower", () => {
    for (const seed of seeds) {
      const board = wornPlan(seed);
      const all = leastMm(board);
      for (const left of [0, 17, 41]) {
        expect(leastMm(board, board.task.places.toSpliced(left, 1)), `board ${seed}`).toBeLessThanOrEqual(
          all + solvedMm,
        );
      }
    }
  });

  test("an allowance makes the least cut deeper by itself, no more and no less", () => {
    for (const seed of seeds) {
      near(leastMm(wornPlan(seed, { figures: { allowanceMm: 0.13 } })) - leastMm(wornPlan(seed)), 0.13, solvedMm);
    }
  });
});

describe("a bound that presses", () => {
  const boards = seeds.map((seed) => ({ seed, board: wornPlan(seed) }));
  const told = boards.flatMap(({ seed, board }) =>
    pressingBounds(planOf(board), board.task.choice, board.instrument).map((bound) => ({ seed, board, bound })),
  );

  test("is told on some of these boards, and of several kinds", () => {
    expect(new Set(told.map(({ seed }) => seed)).size).toBeGreaterThan(4);
    expect(new Set(told.map(({ bound }) => bound.setting)).size).toBeGreaterThan(1);
  });

  test("saves what it says for the first little more of it", () => {
    const figureOf: Readonly<Record<string, BoundFigure>> = {
      projection_bound: "projectionBoundMm",
      crown_bound: "crownBoundMm",
      radius_band: "radiusBandMm",
      hollow_band: "hollowBandMm",
    };
    for (const { seed, board, bound } of told) {
      const figure = figureOf[bound.setting]!;
      const byMm = 2e-3;
      const wider = wornPlan(seed, { figures: { [figure]: board.instrument[figure].value + byMm } });
      const depth = ({ task }: WornPlan) =>
        smallestDeepestCut({
          ...task.choice,
          allowanceMm: 0,
          places: [...task.places, ...task.outlinePlaces].map(({ xMm, yMm, presentMm }) => ({
            xMm,
            yMm,
            presentMm,
            spareMm: 0,
            capMm: null,
          })),
        })!.deepestMm;
      // A saving of 1e-4 or so, known to 2e-6 twice over; another place may come to govern within the step.
      near((depth(board) - depth(wider)) / byMm, bound.savesMmPerMm, 0.1 * bound.savesMmPerMm + 2e-3, bound.setting);
    }
  });

  test("is none where the target is free of it", () => {
    const free = wornPlan(3, {
      figures: { projectionBoundMm: 20, crownBoundMm: 20, radiusBandMm: 12, hollowBandMm: 0.6 },
    });
    expect(pressingBounds(planOf(free), free.task.choice, free.instrument).map(({ setting }) => setting)).not.toContain(
      "projection_bound",
    );
  });
});

describe("a board that no plan within the bounds keeps", () => {
  const figureOf = { radius_band: "radiusBandMm", hollow_band: "hollowBandMm" } as const;
  const thin = seeds.map((seed) => ({ seed, board: wornPlan(seed, { edgeSpareMm: 0.08 }) }));
  const told = thin.flatMap(({ seed, board: { task, surface, instrument } }) =>
    wideningOf(task, planOf({ task, surface, instrument }), surface, instrument, workshopJob).map((one) => ({
      seed,
      instrument,
      one,
    })),
  );

  test("is told which bound to widen, on some of these boards", () => {
    expect(told.length).toBeGreaterThan(3);
    expect(told[0]!.one.says).toMatch(
      /needs [\d.]+ mm more .* \((projection_bound|crown_bound|radius_band|hollow_band)\)/,
    );
  });

  test("is kept with that much more, and not with a twentieth of a millimetre less", () => {
    for (const { seed, instrument, one } of told) {
      const figure =
        figureOf[one.setting as keyof typeof figureOf] ??
        (one.setting === "crown_bound" ? "crownBoundMm" : "projectionBoundMm");
      const keeps = (byMm: number): boolean => {
        const board = wornPlan(seed, {
          edgeSpareMm: 0.08,
          figures: { [figure]: instrument[figure].value + byMm },
        });
        const plan = planOf(board);
        return (
          wideningOf(board.task, plan, board.surface, board.instrument, workshopJob).length === 0 &&
          leastLeft(board, plan) >= 0.03 - 1e-6
        );
      };
      expect(keeps(one.byMm + 1e-3), `board ${seed}, ${one.says}`).toBe(true);
      if (one.byMm > 0.06) expect(keeps(one.byMm - 0.05), `board ${seed}, ${one.says}`).toBe(false);
    }
  });

  test("names the thin places that its plan is bent for", () => {
    for (const { board } of thin) {
      const plan = planOf(board);
      if (plan.spares === "thinnest place") expect(plan.thinPlaces.length).toBeGreaterThan(0);
      else expect(plan.thinPlaces).toEqual([]);
    }
  });
});

function leastLeft({ task }: WornPlan, plan: CutPlan): number {
  return Math.min(...task.sparePlaces.map((place) => place.spareMm - cutAt(task, plan, place)));
}

function cutAt(task: WornPlan["task"], plan: CutPlan, place: WornPlan["task"]["sparePlaces"][number]): number {
  return place.presentMm - heightMm(task.choice.frame.unworn.plan, plan.shape, place.xMm, place.yMm);
}

test("what a place costs is what the cut would be without it, solved from the very start", () => {
  for (const seed of seeds.slice(0, 6)) {
    const board = wornPlan(seed);
    const plan = planOf(board);
    board.task.places.forEach((place, i) => {
      const rests = plan.restsOn[i]!;
      if (!rests && i % 10 > 0) return;
      const without = leastMm(board, board.task.places.toSpliced(i, 1));
      near(
        deepestCutWithoutMm(board.task, plan, new Set(place.readings))!,
        without,
        solvedMm,
        `board ${seed}, place ${i}`,
      );
      if (!rests) near(without, plan.leastDeepestMm, solvedMm, `board ${seed}, place ${i}, on which nothing rests`);
    });
  }
});
