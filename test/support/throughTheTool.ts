/**
 * One synthetic board through the whole tool, and everything a test wants to know about it afterwards. Lengths in mm.
 */
import { type MadeBoard, makeBoard, withWood } from "../../data/make/board.ts";
import { halfWidthMm } from "../../data/make/plan.ts";
import { seededRandom } from "../../data/make/random.ts";
import type { Recipe } from "../../data/make/recipe.ts";
import type { Examination } from "../../server/core/examination.ts";
import { type Comparison, compareWithTruth } from "./compareWithTruth.ts";
import { examineFiles } from "./examineMade.ts";
import { cutsOffMm, optimumOfReadings, publishedSurface, publishedTarget } from "./publishedSurfaces.ts";
import { familyHeightMm, heightUncertaintyMm, type Parameters } from "./referenceSurface.ts";
import { aims, dressAtMm, evenEdges, type Kind, type Layout, syntheticBoard } from "./syntheticBoards.ts";
import { boundsFor, type TrueLeast, trueLeastCut } from "./trueLeastCut.ts";

type Proud = { readonly byMm: number; readonly allowedMm: number; readonly where: string };

type Off = { readonly offMm: number; readonly u: number };

export type BoardThroughTheTool = {
  readonly name: string;
  readonly worn: boolean;
  readonly decision: string;
  /** Decisions that would be right; null: too near a limit for this test to say. */
  readonly expected: readonly string[] | null;
  readonly seen: Comparison;
  readonly deepestSaidMm: number;
  /** Plane-off depth of the readings beside the optimum of another solver; null: the plan spares something else. */
  readonly ofReadings: { readonly saidMm: number; readonly referenceMm: number } | null;
  /** Largest difference between the published cuts and those of the target rebuilt from the published figures. */
  readonly rebuiltOffMm: number | null;
  /** Where the target stands highest above the true unworn board, against what is allowed there. */
  readonly proud: Proud | null;
  /** Least cut at any reading: negative where the target would need wood put back. */
  readonly leastCutOfPointsMm: number;
  readonly leastCut: Off | null;
  readonly after: Off | null;
};

export function throughTheTool(kind: Kind, layout: Layout, seed: number, worn: boolean): BoardThroughTheTool {
  const recipe = syntheticBoard(kind, layout, seed, worn);
  const bare = makeBoard(recipe);
  const bounds = boundsFor(kind);
  const least = trueLeastCut(recipe, bare, bounds);
  const needed = bare.truth.deepestReading.depthMm > dressAtMm - 0.06;
  const wood = edgesFor(kind, seed, least, needed);
  const made = withWood(bare, recipe, evenEdges(recipe.plan, wood.edgeMm));
  const examination = examineFiles(made.readingsCsv, made.thicknessCsv);
  const { planing } = examination;
  const surface = publishedSurface(recipe.plan, examination);
  const target = planing && publishedTarget(recipe.plan, surface, planing, bounds.deepestAt);
  return {
    name: `${kind} ${layout} seed ${seed}${worn ? "" : " unworn"}`,
    worn,
    decision: examination.verdict.decision,
    expected: expectedDecisions(made, worn, wood.clear),
    seen: compareWithTruth(examination, made),
    deepestSaidMm: examination.deepest?.depthMm ?? 0,
    ofReadings:
      planing?.spares === "deepest cut"
        ? {
            saidMm: planing.planeOffMm.ofReadings,
            referenceMm: optimumOfReadings(recipe, examination, surface, bounds),
          }
        : null,
    rebuiltOffMm: target && cutsOffMm(recipe.plan, examination, target),
    proud: target && proudest(recipe, made, surface, target),
    leastCutOfPointsMm: Math.min(...examination.points.map(({ cutMm }) => cutMm ?? 0)),
    leastCut:
      planing?.spares === "deepest cut"
        ? { offMm: planing.planeOffMm.value - least.deepestMm, u: planing.planeOffMm.u }
        : null,
    after: target && afterOff(recipe, made, examination, target),
  };
}

type Wood = { readonly edgeMm: number; readonly clear: "above" | "below" | "near" };

/** Edges so thick that the board is clear of its limit by 0.2 mm or more, or not clear at all, by turns; else plenty. */
function edgesFor(kind: Kind, seed: number, least: TrueLeast, needed: boolean): Wood {
  const random = seededRandom(seed + 9000);
  const limitMm = aims[kind].edgeLimitMm;
  const clear = (["above", "below", "above", "near"] as const)[Math.floor(random.uniform() * 4)]!;
  if (!needed || clear === "above") return { edgeMm: limitMm + least.edgeMm + random.between(0.2, 1), clear: "above" };
  if (clear === "below") return { edgeMm: limitMm + least.sparedEdgeMm() - random.between(0.2, 0.5), clear };
  return { edgeMm: limitMm + least.edgeMm + random.between(-0.15, 0.15), clear };
}

/** Wear within 0.06 mm of the depth that calls for a dressing is too near to say; so is thickness near its limit. */
function expectedDecisions(made: MadeBoard, worn: boolean, clear: Wood["clear"]): string[] | null {
  const depthMm = made.truth.deepestReading.depthMm;
  if (!worn || depthMm < dressAtMm - 0.06) return ["leave", "undecided"];
  if (depthMm < dressAtMm + 0.06 || clear === "near") return null;
  return clear === "above" ? ["dress", "undecided"] : ["replace", "undecided"];
}

/**
 * Where on a grid of 1 mm the target stands highest above the true board, measured against what is allowed there: four standard
 * uncertainties of the surface (of some two hundred corners and edges of these boards one in a hundred runs has one so far off)
 * and 0.005 mm for wear that fades out below the noise. Wear that nobody read is left out: nobody could know of it.
 */
function proudest(recipe: Recipe, made: MadeBoard, surface: Parameters, target: Parameters): Proud {
  const { plan, probe } = recipe;
  const unwornSpots = made.truth.readings
    .filter(({ shownMm }) => shownMm < 0.01)
    .map(({ touchXMm, touchYMm }) => ({ xMm: touchXMm, yMm: touchYMm }));
  const readNoiseMm = Math.hypot(probe.noiseMm, probe.resolutionMm / Math.sqrt(12));
  const uncertaintyMm = heightUncertaintyMm(plan, surface, unwornSpots, readNoiseMm);
  let worst: Proud = { byMm: 0, allowedMm: 1, where: "nowhere" };
  for (const xMm of upTo(plan.lengthMm)) {
    const halfMm = halfWidthMm(plan, xMm);
    for (const inward of upTo(2 * halfMm)) {
      const yMm = inward - halfMm;
      if (made.wearMm(xMm, yMm) > 0.005) continue;
      const byMm = familyHeightMm(plan, null, target, xMm, yMm) - made.unwornHeightMm(xMm, yMm);
      if (byMm < 0.01) continue;
      const allowedMm = 4 * uncertaintyMm({ xMm, yMm }) + 0.005;
      if (byMm / allowedMm > worst.byMm / worst.allowedMm) {
        worst = { byMm, allowedMm, where: `x ${xMm} of ${plan.lengthMm}, y ${yMm.toFixed(1)}` };
      }
    }
  }
  return worst;
}

/** 0, 1, 2 … and the end itself. */
function upTo(endMm: number): number[] {
  return [...Array.from({ length: Math.ceil(endMm) }, (_, k) => k), endMm];
}

/** Thinnest edge after planing to this target: as said, less what would truly be left. */
function afterOff(recipe: Recipe, made: MadeBoard, { thickness }: Examination, target: Parameters): Off | null {
  if (thickness === null) return null;
  const left = made.truth.thickness.map(({ xMm, side, thicknessMm }) => {
    const yMm = (side === "bass" ? -1 : 1) * halfWidthMm(recipe.plan, xMm);
    return thicknessMm - (made.unwornHeightMm(xMm, yMm) - familyHeightMm(recipe.plan, null, target, xMm, yMm));
  });
  return { offMm: thickness.edgeAfterMm.value - Math.min(...left), u: thickness.edgeAfterMm.u };
}
