/** Humps of workmanship: by hand on a flat board with one wave, and on a made board beside a straightedge tried everywhere. Lengths in mm. */
import { describe, expect, test } from "vitest";
import { makeBoard } from "../../../../data/make/board.ts";
import { stringYMm } from "../../../../data/make/plan.ts";
import { violaHandPlaned } from "../../../../data/make/store/violas.ts";
import { formModes } from "../../../../server/core/surface/form.ts";
import { humpsOf } from "../../../../server/core/surface/humps.ts";
import { parameterNames } from "../../../../server/core/surface/idealSurface.ts";
import { examineFiles } from "../../../support/examineMade.ts";
import { near } from "../../../support/near.ts";
import { knownSurface, shapeWith, violin } from "../plainBoards.ts";

/** A board as good as flat, with the wave of two lengths to the board, so high, its height known no better than this. */
function flatWith(waveMm: number, standardUMm = 0) {
  const flat = shapeWith({
    radiusNutMm: 1e9,
    radiusMiddleMm: 1e9,
    radiusEndMm: 1e9,
    hollowLowestMm: 0,
    hollowHighestMm: 0,
  });
  const form = new Float64Array(formModes);
  const wave = (4 - 2) * 3;
  form[wave] = waveMm;
  const size = parameterNames.length + formModes;
  const covariance = new Float64Array(size * size);
  covariance[(parameterNames.length + wave) * (size + 1)] = standardUMm ** 2;
  return { ...knownSurface(flat), form, covariance };
}

/**
 * On 72 stations the straightedge is 27 long; the wave's crests are 36 apart, one in the middle of the board. Laid from 14 before the
 * crest to 13 behind it, it hangs at (13·cos 70° − … )/27 of the two ends' heights, which are cos(4π·14/72) and cos(4π·13/72).
 */
const risePerMm = 1 - (13 * Math.cos((4 * Math.PI * 14) / 72) + 14 * Math.cos((4 * Math.PI * 13) / 72)) / 27;

describe("a wave with its crest in the middle", () => {
  test("is a hump there under every string, as high as a straightedge of three eighths of the board shows", () => {
    const humps = humpsOf(flatWith(0.03), violin);
    expect(humps.map(({ string }) => string)).toEqual(["G", "D", "A", "E"]);
    for (const { xMm, heightMm } of humps) {
      expect(xMm).toBe(violin.boardLengthMm.value / 2);
      // A radius of a kilometre leaves (15 mm)²/2R = 1e-7 of camber.
      near(heightMm.value, 0.03 * risePerMm, 2e-7);
    }
  });

  test("is uncertain by what the wave is", () => {
    const [hump] = humpsOf(flatWith(0.03, 0.002), violin);
    near(hump!.heightMm.u, 2 * 0.002 * risePerMm, 1e-12);
  });

  test("is not told when it may be none", () => {
    expect(humpsOf(flatWith(0.03, 0.0149), violin).length).toBe(4);
    expect(humpsOf(flatWith(0.03, 0.0151), violin)).toEqual([]);
  });

  test("is not worth naming when a straightedge rocks by less than 0.01", () => {
    expect(humpsOf(flatWith(0.0101 / risePerMm), violin).length).toBe(4);
    expect(humpsOf(flatWith(0.0099 / risePerMm), violin)).toEqual([]);
  });
});

test("a board that is hollow from end to end, 0.7 and 0.5, has none", () => {
  expect(humpsOf(knownSurface(shapeWith()), violin)).toEqual([]);
});

describe("the viola planed by hand", () => {
  const { recipe } = violaHandPlaned;
  const made = makeBoard(recipe);
  const { surface } = examineFiles(made.readingsCsv, made.thicknessCsv);

  /** Highest rise of the board as it left the plane over a straightedge 0.37 of it long, tried every 1 mm. */
  function trueHump(string: string) {
    const z = (xMm: number) => made.unwornHeightMm(xMm, stringYMm(recipe.plan, string, xMm));
    const reachMm = 0.37 * recipe.plan.lengthMm;
    let highest = { xMm: 0, mm: Number.NEGATIVE_INFINITY };
    for (let from = 0; from + reachMm <= recipe.plan.lengthMm; from += 1) {
      const [first, last] = [z(from), z(from + reachMm)];
      for (let into = 1; into < reachMm; into += 1) {
        const mm = z(from + into) - first - ((last - first) * into) / reachMm;
        if (mm > highest.mm) highest = { xMm: from + into, mm };
      }
    }
    return highest;
  }

  test("has its hump under A where the waves put it, as high within what is said of it", () => {
    const hump = surface.humps.find(({ string }) => string === "A");
    const { xMm, mm } = trueHump("A");
    expect(mm, "the hump that was made").toBeGreaterThan(0.02);
    near(hump!.heightMm.value, mm, hump!.heightMm.u, "height");
    // Round its crest a wave 140 long and 0.04 high falls by no more than the readings' noise over ten millimetres.
    near(hump!.xMm, xMm, 10, "place");
  });

  test("has no hump told under a string where there is less than 0.005", () => {
    for (const string of recipe.plan.strings) {
      if (trueHump(string).mm < 0.005) expect(surface.humps.map((hump) => hump.string)).not.toContain(string);
    }
  });
});
