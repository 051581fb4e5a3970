/** What is known beforehand: how little it says against a survey's readings, and what counts as told. Lengths in mm. */
import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../../server/core/maths/seededRandom.ts";
import type { ParameterName, SurfaceShape } from "../../../../server/core/surface/idealSurface.ts";
import { heightMm, surfacePlan } from "../../../../server/core/surface/idealSurface.ts";
import {
  assumedInWords,
  combinedOn,
  type SoftConstraint,
  softConstraints,
  untoldRespects,
} from "../../../../server/core/surface/softConstraints.ts";
import { varianceOf } from "../../../../server/core/surface/surfaceUncertainty.ts";
import { examineFiles } from "../../../support/examineMade.ts";
import { near } from "../../../support/near.ts";
import { instrumentFrom } from "../board/boards.ts";
import { evenly, readingsAt, shapeWith, violin, violinSettings } from "../plainBoards.ts";
import { noiseMm, plan, problemWith, rivalsOf, seededBoard, surfaceOf, takenFrom } from "./seededBoards.ts";

const settled = softConstraints(violin, plan, new Set());
const widthMm = violin.widthEndMm.value;

describe("on a full survey", () => {
  test("what is usual pulls no radius by a thousandth of what it is off", () => {
    const radii = ["radiusNutMm", "radiusMiddleMm", "radiusEndMm"] as const;
    // A board far from usual: R 60 where the width, 42, is expected.
    const far = shapeWith({ radiusNutMm: 60, radiusMiddleMm: 60, radiusEndMm: 60 });
    const random = seededRandom(6);
    const { readings } = seededBoard(6);
    const places = readings.readings.map(({ xMm, yMm }) => ({ xMm, yMm }));
    const taken = takenFrom(
      readingsAt(places, ({ xMm, yMm }) => heightMm(plan, far, xMm, yMm) + noiseMm * random.normal()),
    );
    // As good as nothing known of radii, swell and taper; all else as it is.
    const free = settled.map((constraint) =>
      Object.keys(constraint.combination).some((name) => name.startsWith("radius"))
        ? { ...constraint, spread: 1e4 * constraint.spread }
        : constraint,
    );
    expect(free.filter(({ spread }) => spread > 1e4).length).toBe(5);
    const pulled = rivalsOf(taken, problemWith(settled)).unworn.placed.shape;
    const left = rivalsOf(taken, problemWith(free)).unworn.placed.shape;
    for (const name of radii) near(pulled[name], left[name], 1e-3 * (60 - widthMm), name);
  });

  test("nothing is assumed", () => {
    for (const seed of [1, 2, 3]) expect(surfaceOf(seededBoard(seed).readings).assumed).toEqual([]);
  });
});

describe("a respect of the shape is told when it is known to", () => {
  const sure = (): number => 0;
  const faceted = instrumentFrom({ ...violinSettings, flat_ridge_nut: "-5", flat_ridge_end: "-9" });
  const isCombination = (combination: SoftConstraint["combination"], ...names: readonly ParameterName[]): boolean =>
    Object.keys(combination).sort().join() === [...names].sort().join();
  const knownTo = (u: number, ...names: readonly ParameterName[]) =>
    untoldRespects(faceted, surfacePlan(faceted), (combination) => (isCombination(combination, ...names) ? u : 0));

  test("all are where all is sure", () => {
    expect(untoldRespects(violin, plan, sure)).toEqual([]);
  });

  test.each<[string, number, readonly ParameterName[]]>([
    ["camber", 0.1 * widthMm, ["radiusMiddleMm"]],
    ["swell", 0.1 * widthMm, ["radiusMiddleMm", "radiusNutMm", "radiusEndMm"]],
    ["taper", 0.1 * widthMm, ["radiusEndMm", "radiusNutMm"]],
    ["twist", 0.01 * widthMm, ["crownEndMm", "crownNutMm"]],
    ["facet", 0.05, ["facetSlopeNut"]],
    ["facet", 0.05, ["facetSlopeEnd"]],
  ])("%s: within %f, and no further", (respect, mostU, names) => {
    expect(knownTo(0.999 * mostU, ...names)).toEqual([]);
    expect(knownTo(1.001 * mostU, ...names)).toEqual([respect]);
  });

  test("of a board without a flat none is asked for", () => {
    expect(untoldRespects(violin, plan, (combination) => ("facetSlopeNut" in combination ? 9 : 0))).toEqual([]);
  });
});

describe("what can't be told", () => {
  const settingOf = (constraints: readonly SoftConstraint[], ...names: readonly ParameterName[]) =>
    constraints.find(({ combination }) => Object.keys(combination).join() === names.join());

  test("is held where it is set or usual, and more closely than what can", () => {
    const assumed = softConstraints(violin, plan, new Set(["camber", "swell", "taper", "twist"] as const));
    expect(settingOf(assumed, "radiusMiddleMm")).toEqual({
      combination: { radiusMiddleMm: 1 },
      setting: 42,
      spread: 4.2,
    });
    for (const names of [
      ["radiusMiddleMm", "radiusNutMm", "radiusEndMm"],
      ["radiusEndMm", "radiusNutMm"],
      ["crownEndMm", "crownNutMm"],
    ] as const) {
      expect(settingOf(assumed, ...names)!.setting).toBe(0);
      expect(settingOf(assumed, ...names)!.spread).toBeLessThan(settingOf(settled, ...names)!.spread / 10);
    }
  });

  test("is read off a shape as it is combined: a swell of 1, a taper of 2, a twist of 1.2", () => {
    const shape: SurfaceShape = shapeWith({
      radiusNutMm: 41,
      radiusMiddleMm: 43,
      radiusEndMm: 43,
      crownNutMm: -0.4,
      crownEndMm: 0.8,
    });
    // Sums of a few figures.
    near(combinedOn(shape, settingOf(settled, "radiusMiddleMm", "radiusNutMm", "radiusEndMm")!.combination), 1, 1e-12);
    near(combinedOn(shape, settingOf(settled, "radiusEndMm", "radiusNutMm")!.combination), 2, 1e-12);
    near(combinedOn(shape, settingOf(settled, "crownEndMm", "crownNutMm")!.combination), 1.2, 1e-12);
  });
});

describe("a board with a flat", () => {
  const instrument = instrumentFrom({ ...violinSettings, flat_ridge_nut: "-5", flat_ridge_end: "-9" });
  const facetPlan = surfacePlan(instrument);
  /** Where the arc simply runs on at its ridge: the slope of R 42 there. */
  const asArc = { nut: 5 / 42, end: 9 / 42 };
  const shape = shapeWith({ facetSlopeNut: asArc.nut + 0.02, facetSlopeEnd: asArc.end + 0.03 });

  function readOn(shares: readonly number[], seed: number) {
    const random = seededRandom(seed);
    const places = evenly(5, 265, 11).flatMap((xMm) => shares.map((share) => ({ xMm, yMm: share * (9.5 + xMm / 30) })));
    const readings = readingsAt(
      places,
      ({ xMm, yMm }) => heightMm(facetPlan, shape, xMm, yMm) + noiseMm * random.normal(),
    );
    return { readings, surface: surfaceOf(readings, instrument) };
  }

  test("read across all of it has its slopes told, within what is said of them", () => {
    for (const seed of [1, 2, 3, 4]) {
      const { surface } = readOn([-1, -0.75, -0.5, -0.2, 0.1, 0.4, 0.7, 1], seed);
      expect(surface.assumed).toEqual([]);
      for (const name of ["facetSlopeNut", "facetSlopeEnd"] as const) {
        // Three standard uncertainties: eight figures, once in fifty such tests.
        const uMm = 3 * Math.sqrt(varianceOf(surface, (s) => s[name]));
        expect(uMm).toBeLessThan(0.05);
        near(surface.shape[name], shape[name], uMm, name);
      }
    }
  });

  test("with hardly a reading beyond its ridge has the flat assumed as the arc runs on, as uncertain as that is", () => {
    const { surface } = readOn([-0.45, -0.3, -0.1, 0.1, 0.4, 0.7, 1], 1);
    expect(surface.assumed).toEqual(["facet"]);
    near(surface.shape.facetSlopeNut, asArc.nut, 0.02, "slope at the nut");
    near(surface.shape.facetSlopeEnd, asArc.end, 0.03, "slope at the end");
    // Held by ±0.03, which no reading narrows much.
    near(Math.sqrt(varianceOf(surface, (s) => s.facetSlopeNut)), 0.03, 0.005);
  });

  test("so read, it is told in a luthier's words", () => {
    const { readings } = readOn([-0.45, -0.3, -0.1, 0.1, 0.4, 0.7, 1], 1);
    const settings = { ...violinSettings, flat_ridge_nut: "-5", flat_ridge_end: "-9" };
    const { surface } = examineFiles(
      [
        ...Object.entries({ ...settings, tip_radius: "0", tension: "on" }).map(([key, value]) => `# ${key}: ${value}`),
        "x,y,height",
        ...readings.readings.map(({ xMm, yMm, gaugeMm }) => `${xMm},${yMm},${gaugeMm}`),
      ].join("\n"),
      null,
    );
    expect(surface.assumed).toEqual([assumedInWords.facet]);
  });
});
