/**
 * A made board and a bench that can go back to it: the readings it took, and any further one at any place.
 *
 * In: a recipe. Out: the examination under chosen settings, with as many further readings as the test asks for. Lengths in mm.
 */
import { type MadeBoard, makeBoard, withWood } from "../../../../data/make/board.ts";
import { lowerBall } from "../../../../data/make/probe.ts";
import { seededRandom } from "../../../../data/make/random.ts";
import type { Recipe } from "../../../../data/make/recipe.ts";
import type { Examination } from "../../../../server/core/examination.ts";
import { examine } from "../../../../server/core/examine.ts";
import { faultInWords } from "../../../../server/core/fault.ts";
import { readReadingsFile } from "../../../../server/core/readings/readReadingsFile.ts";
import { readThicknessFile } from "../../../../server/core/readings/readThicknessFile.ts";
import type { Place } from "../../../../server/core/units.ts";
import { loadInstrumentTable } from "../../../../server/instrumentTable.ts";
import { aims, evenEdges, type Kind, type Layout, syntheticBoard } from "../../../support/syntheticBoards.ts";

const table = loadInstrumentTable();

export type Settings = Readonly<Record<string, string>>;

export type Bench = {
  readonly recipe: Recipe;
  readonly made: MadeBoard;
  readonly examined: (settings: Settings, more?: readonly Place[]) => Examination;
};

/** @param spareMm wood over the edge limit all round; null: thickness is not measured. */
export function benchWith(kind: Kind, layout: Layout, seed: number, worn: boolean, spareMm: number | null = 2): Bench {
  const recipe = syntheticBoard(kind, layout, seed, worn);
  const bare = makeBoard(recipe);
  const made =
    spareMm === null ? bare : withWood(bare, recipe, evenEdges(recipe.plan, aims[kind].edgeLimitMm + spareMm));
  const settings = made.readingsCsv.split("\n").filter((line) => line.startsWith("#"));
  const rows = made.truth.readings.map(({ crosslineMm, yMm, readMm }) => `${crosslineMm},${yMm},${readMm.toFixed(2)}`);
  return {
    recipe,
    made,
    examined: (changed, more = []) => {
      const further = furtherRows(recipe, made, more);
      const answer = examine({
        readings: readReadingsFile([...settings, "x,y,height", ...rows, ...further].join("\n")),
        thickness: made.thicknessCsv === null ? null : readThicknessFile(made.thicknessCsv),
        rail: null,
        settings: Object.entries(changed).map(([key, value]) => ({ key, value, where: "settings", line: null })),
        table,
        version: "test",
      });
      if (answer.outcome === "faulty") throw new Error(answer.faults.map(faultInWords).join("\n"));
      return answer.examination;
    },
  };
}

/** Read as the others were: the same ball, noise and gauge. */
function furtherRows({ seed, probe }: Recipe, made: MadeBoard, places: readonly Place[]): readonly string[] {
  const random = seededRandom(seed + 77);
  const worn = (xMm: number, yMm: number): number => made.unwornHeightMm(xMm, yMm) - made.wearMm(xMm, yMm);
  return places.map(({ xMm, yMm }) => {
    const touch = lowerBall(worn, xMm, yMm, probe.tipRadiusMm, 4);
    return `${xMm},${yMm},${(touch.heightMm + probe.noiseMm * random.normal()).toFixed(2)}`;
  });
}

/**
 * Least thicknesses at the edge under which the best plan comes too close to call, each with its distance in U (positive: above
 * the limit). The plan spares the edges the more the higher their limit is, hence a search in small steps.
 */
export function closeEdgeLimits(bench: Bench, settings: Settings): readonly { settings: Settings; inU: number }[] {
  const easy = bench.examined(settings).thickness!.edgeAfterMm;
  return Array.from({ length: 24 }, (_, k) => String(easy.value + (k - 4) * 0.015)).flatMap((edge_limit) => {
    const close = { ...settings, edge_limit };
    const { verdict, thickness } = bench.examined(close);
    const { value, u } = thickness!.edgeAfterMm;
    return verdict.decision === "borderline" ? [{ settings: close, inU: (value - Number(edge_limit)) / u }] : [];
  });
}

/**
 * Settings under which everything is right but one thing, which lies at its limit, over it by so many of its own uncertainties
 * (negative: inside): the wear, the hollow under the lowest string, or the radius in the middle.
 */
export function atItsLimit(seen: Examination, which: "wear" | "hollow" | "camber", overInU: number): Settings {
  const { hollows, camberRadiusMm } = seen.surface;
  const lowest = hollows[0]!.hollowMm;
  const highest = hollows.at(-1)!.hollowMm;
  const { nut, middle, end } = camberRadiusMm;
  const right: Settings = {
    dress_at: "0.9",
    hollow_lowest: String(lowest.value),
    hollow_highest: String(highest.value),
    hollow_tolerance: "0.2",
    radius_tolerance: "3",
    radius_nut: String(nut!.value),
    radius_middle: String(middle!.value),
    radius_end: String(end!.value),
  };
  const deepest = seen.deepest;
  switch (which) {
    case "wear":
      return { ...right, dress_at: deepest === null ? "0.9" : String(deepest.depthMm - overInU * deepest.u) };
    case "hollow":
      return { ...right, hollow_lowest: String(lowest.value + 0.2 + overInU * lowest.u) };
    case "camber":
      return { ...right, radius_middle: String(middle!.value + 3 + overInU * middle!.u) };
  }
}
