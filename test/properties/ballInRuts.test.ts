/**
 * A ball over ruts of many widths, read from whole boards of the generator: a rut that the ball can't bottom is never told as if it
 * had been. Heights with 0.005 mm of noise to 0.001 mm; the rut's width is given as measured. Lengths in mm.
 */
import { beforeAll, describe, expect, test } from "vitest";
import { makeBoard } from "../../data/make/board.ts";
import type { Recipe } from "../../data/make/recipe.ts";
import { stringRut } from "../../data/make/wear.ts";
import type { Examination } from "../../server/core/examination.ts";
import { examineFiles } from "../support/examineMade.ts";
import { type Kind, syntheticBoard } from "../support/syntheticBoards.ts";
import { withSettings } from "../support/withSettings.ts";

type Rut = { readonly kind: Kind; readonly tipRadiusMm: number; readonly widthMm: number; readonly depthMm: number };

type ReadRut = {
  readonly rut: Rut;
  /** Deepest wear at any place that was read. */
  readonly trueMm: number;
  readonly examination: Examination;
};

function over(kinds: readonly Kind[], tips: readonly number[], widths: readonly number[], depths: readonly number[]) {
  return kinds.flatMap((kind) =>
    tips.flatMap((tipRadiusMm) =>
      widths.flatMap((widthMm) => depths.map((depthMm) => readRut({ kind, tipRadiusMm, widthMm, depthMm }))),
    ),
  );
}

/** A board worn only under its highest string, where the slope is steepest. */
function readRut(rut: Rut): ReadRut {
  const unworn = syntheticBoard(rut.kind, "7 x 13", 400, false);
  const highest = unworn.plan.strings.at(-1)!;
  const recipe: Recipe = {
    ...unworn,
    wear: [stringRut(unworn.plan, highest, [1, 9], rut.widthMm, rut.depthMm)],
    probe: { tipRadiusMm: rut.tipRadiusMm, noiseMm: 0.005, resolutionMm: 0.001 },
    writing: {
      ...withSettings(unworn.writing, {
        tip_radius: rut.tipRadiusMm,
        resolution: 0.001,
        rut_width: rut.widthMm,
      }),
      decimals: 3,
    },
  };
  const made = makeBoard(recipe);
  return {
    rut,
    trueMm: Math.max(...made.truth.readings.map(({ wearMm }) => wearMm)),
    examination: examineFiles(made.readingsCsv, null),
  };
}

const named = ({ tipRadiusMm, widthMm, depthMm, kind }: Rut): string =>
  `${kind}, tip ${tipRadiusMm}, rut ${widthMm} wide and ${depthMm} deep`;

describe("a rut that shows under a ball", () => {
  const shown: ReadRut[] = [];
  const short: ReadRut[] = [];

  beforeAll(() => {
    for (const rut of over(["violin", "cello"], [0.5, 1.5, 3], [0.8, 1.2, 2, 3], [0.1, 0.2, 0.4])) {
      // Some of them are too narrow to show at all.
      if (rut.examination.deepest !== null) shown.push(rut);
    }
    // Short by more than its uncertainty; and by more than a third, since on a slope a ball that finds a wide rut's bottom touches
    // aside of it, where the rut is by so much shallower.
    short.push(
      ...shown.filter(({ trueMm, examination: { deepest } }) => {
        const shortMm = trueMm - deepest!.depthMm;
        return shortMm > deepest!.u && shortMm > trueMm / 3;
      }),
    );
  }, 120_000);

  test("is often told too shallow: enough of them for this table to mean something", () => {
    expect(shown.length).toBeGreaterThan(35);
    expect(short.length).toBeGreaterThan(15);
  });

  test("is at least as deep as told, wherever it is deeper by more than its uncertainty and by more than a third", () => {
    expect(short.filter(({ examination }) => !examination.deepest!.atLeast).map(({ rut }) => named(rut))).toEqual([]);
  });

  test("then makes the plane-off depth a least one too, and the board is neither left nor dressed", () => {
    expect(short.filter(({ examination }) => !examination.planing!.atLeast).map(({ rut }) => named(rut))).toEqual([]);
    expect([...new Set(short.map(({ examination }) => examination.verdict.decision))]).toEqual(["undecided"]);
  });

  test("is never told deeper than it is, but for the uncertainty", () => {
    // Of some fifty ruts one in twenty may lie outside U (k = 2), but hardly one outside twice that.
    const tooDeep = shown.filter(({ trueMm, examination: { deepest } }) => deepest!.depthMm - trueMm > 2 * deepest!.u);
    expect(tooDeep.map(({ rut }) => named(rut))).toEqual([]);
  });
});

test("a wide rut under a fine tip is as deep as read, and says so plainly", () => {
  const ruts = over(["violin", "cello"], [0.25, 0.5], [3, 4], [0.1, 0.2, 0.4]);
  for (const { rut, trueMm, examination } of ruts) {
    const { deepest } = examination;
    expect(deepest!.atLeast, named(rut)).toBe(false);
    expect(examination.planing!.atLeast, named(rut)).toBe(false);
    expect(Math.abs(deepest!.depthMm - trueMm), named(rut)).toBeLessThan(1.5 * deepest!.u);
  }
});

test("under a point every rut is as deep as read", () => {
  for (const { rut, examination } of over(["violin"], [0], [0.8, 2], [0.1, 0.4])) {
    expect(examination.deepest!.atLeast, named(rut)).toBe(false);
    expect(examination.planing!.atLeast, named(rut)).toBe(false);
  }
});
