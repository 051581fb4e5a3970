/**
 * One synthetic board through the whole tool, and everything a test wants to know about it afterwards. Lengths in mm.
 */
import { type MadeBoard, makeBoard, withWood } from "../../data/make/board.ts";
import { halfWidthMm } from "../../data/make/plan.ts";
import { seededRandom } from "../../data/make/random.ts";
import type { Plan, Recipe } from "../../data/make/recipe.ts";
import type { Examination, Planing } from "../../server/core/examination.ts";
import { type Comparison, compareWithTruth } from "./compareWithTruth.ts";
import { examineFiles } from "./examineMade.ts";
import { type Bounds, type PresentSpot, referenceCut } from "./referenceCut.ts";
import { at, familyHeightMm, nearestInFamily, type Parameters, withHollows } from "./referenceSurface.ts";
import {
  aims,
  allowanceMm,
  crownBoundMm,
  dressAtMm,
  edgePlacesMm,
  evenEdges,
  type Kind,
  type Layout,
  projectionBoundMm,
  syntheticBoard,
} from "./syntheticBoards.ts";

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
  /** How far the target stands above the true worn surface at worst, on a grid of 1 mm. */
  readonly proud: { readonly byMm: number; readonly allowedMm: number } | null;
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
    proud: target && planing && { byMm: proudMm(recipe.plan, made, target), allowedMm: planing.planeOffMm.u },
    leastCut:
      planing?.spares === "deepest cut"
        ? { offMm: planing.planeOffMm.value - least.deepestMm, u: planing.planeOffMm.u }
        : null,
    after: target && afterOff(recipe, made, examination, target),
  };
}

/** What the settings let the target do; the bands are the tolerances, unless they are set. */
function boundsFor(kind: Kind): Bounds {
  const { plan, radiusMm, radiusTolMm, lowestMm, highestMm, hollowTolMm } = aims[kind];
  return {
    pitch: projectionBoundMm / plan.stringLengthMm,
    crownMm: crownBoundMm,
    radiiMm: [radiusMm, radiusMm, radiusMm],
    radiusBandMm: radiusTolMm,
    hollowsMm: [lowestMm, highestMm],
    hollowBandMm: hollowTolMm,
    allowanceMm,
    deepestAt: 0.5,
  };
}

type TrueLeast = { readonly deepestMm: number; readonly edgeMm: number; readonly sparedEdgeMm: number };

/**
 * The same programme on heights without noise, and the deepest cut at the edges where thickness is read: on that plan, and
 * on the plan that spares those edges most.
 */
function trueLeastCut(recipe: Recipe, made: MadeBoard, bounds: Bounds): TrueLeast {
  const { plan } = recipe;
  const readings = made.truth.readings.map((reading) => ({
    xMm: reading.touchXMm,
    yMm: reading.touchYMm,
    presentMm: reading.presentMm,
    counts: true,
  }));
  const edge = (xMm: number, side: 1 | -1): PresentSpot => {
    const yMm = side * halfWidthMm(plan, xMm);
    return { xMm, yMm, presentMm: made.unwornHeightMm(xMm, yMm), counts: true };
  };
  const edgesAt = (places: readonly number[]): PresentSpot[] => places.flatMap((xMm) => [edge(xMm, -1), edge(xMm, 1)]);
  const unworn = nearestInFamily(
    plan,
    null,
    readings,
    made.truth.readings.map((reading) => reading.unwornMm),
    startFor(recipe),
  ).parameters;
  const present = [...readings, ...edgesAt(recipe.rounds.crosslinesMm)];
  const calliper = edgesAt(edgePlacesMm(plan.lengthMm));
  const least = referenceCut(plan, null, unworn, present, bounds);
  const uncounted = present.map((spot) => ({ ...spot, counts: false }));
  const spared = referenceCut(plan, null, unworn, [...uncounted, ...calliper], bounds);
  const deepestAtCalliper = (target: Parameters): number =>
    Math.max(...calliper.map(({ xMm, yMm, presentMm }) => presentMm - familyHeightMm(plan, null, target, xMm, yMm)));
  return {
    deepestMm: least.deepestMm,
    edgeMm: deepestAtCalliper(least.target),
    sparedEdgeMm: deepestAtCalliper(spared.target),
  };
}

function startFor({ shape }: Recipe): Parameters {
  const middleMm = (shape.radiusNutMm + shape.radiusEndMm) / 2;
  const hollows = [shape.hollowLowestMm, shape.hollowHighestMm];
  return [shape.heightMm, shape.pitch, 0, 0, shape.radiusNutMm, middleMm, shape.radiusEndMm, ...hollows, 0.5, 0, 0];
}

type Wood = { readonly edgeMm: number; readonly clear: "above" | "below" | "near" };

/** Edges so thick that the board is clear of its limit by 0.2 mm or more, or not clear at all, by turns; else plenty. */
function edgesFor(kind: Kind, seed: number, least: TrueLeast, needed: boolean): Wood {
  const random = seededRandom(seed + 9000);
  const limitMm = aims[kind].edgeLimitMm;
  const clear = (["above", "below", "above", "near"] as const)[Math.floor(random.uniform() * 4)]!;
  if (!needed || clear === "above") return { edgeMm: limitMm + least.edgeMm + random.between(0.2, 1), clear: "above" };
  if (clear === "below") return { edgeMm: limitMm + least.sparedEdgeMm - random.between(0.2, 0.5), clear };
  return { edgeMm: limitMm + least.edgeMm + random.between(-0.15, 0.15), clear };
}

/** Wear within 0.06 mm of the depth that calls for a dressing is too near to say; so is thickness near its limit. */
function expectedDecisions(made: MadeBoard, worn: boolean, clear: Wood["clear"]): string[] | null {
  const depthMm = made.truth.deepestReading.depthMm;
  if (!worn || depthMm < dressAtMm - 0.06) return ["leave", "undecided"];
  if (depthMm < dressAtMm + 0.06 || clear === "near") return null;
  return clear === "above" ? ["dress", "undecided"] : ["replace", "undecided"];
}

/** The unworn surface, rebuilt from the published points. */
function publishedSurface(plan: Plan, { points, surface, instrument }: Examination): Parameters {
  const radii = surface.camberRadiusMm;
  const hollows = [instrument.hollowLowestMm.value, instrument.hollowHighestMm.value];
  const start = [
    points[0]!.unwornMm,
    0,
    0,
    0,
    radii.nut.value,
    radii.middle.value,
    radii.end.value,
    ...hollows,
    0.5,
    0,
    0,
  ];
  const heights = points.map((point) => point.unwornMm);
  return nearestInFamily(plan, null, points, heights, start).parameters;
}

/** The target, rebuilt from its published figures on that surface. */
function publishedTarget(plan: Plan, surface: Parameters, { target }: Planing, deepestAt: number): Parameters {
  const moved = [
    surface[at.height]! + target.heightMm,
    surface[at.pitch]! + target.pitch,
    surface[at.crownNut]! + target.crownMm.nut,
    surface[at.crownEnd]! + target.crownMm.end,
    target.radiusMm.nut,
    target.radiusMm.middle,
    target.radiusMm.end,
    target.hollowMm.lowest,
    target.hollowMm.highest,
    deepestAt,
    surface[at.slopeNut]!,
    surface[at.slopeEnd]!,
  ];
  return withHollows(plan, null, moved, target.hollowMm.lowest, target.hollowMm.highest);
}

function cutsOffMm(plan: Plan, { points }: Examination, target: Parameters): number {
  return Math.max(
    ...points.map((point) =>
      Math.abs(point.heightMm - familyHeightMm(plan, null, target, point.xMm, point.yMm) - (point.cutMm ?? Number.NaN)),
    ),
  );
}

/** The optimum on the published heights by another solver. No place is read twice on these boards. */
function optimumOfReadings(recipe: Recipe, { points }: Examination, surface: Parameters, bounds: Bounds): number {
  const { plan } = recipe;
  const readings = points.map(({ xMm, yMm, heightMm }) => ({ xMm, yMm, presentMm: heightMm, counts: true }));
  const edges = recipe.rounds.crosslinesMm.flatMap((xMm) =>
    [-1, 1].map((side) => {
      const yMm = side * halfWidthMm(plan, xMm);
      return { xMm, yMm, presentMm: familyHeightMm(plan, null, surface, xMm, yMm), counts: true };
    }),
  );
  return referenceCut(plan, null, surface, [...readings, ...edges], bounds).deepestMm;
}

function proudMm(plan: Plan, made: MadeBoard, target: Parameters): number {
  let worst = -Infinity;
  for (let xMm = 0; xMm <= plan.lengthMm; xMm++) {
    const halfMm = halfWidthMm(plan, xMm);
    for (let yMm = -halfMm; yMm <= halfMm; yMm++) {
      const presentMm = made.unwornHeightMm(xMm, yMm) - made.wearMm(xMm, yMm);
      worst = Math.max(worst, familyHeightMm(plan, null, target, xMm, yMm) - presentMm);
    }
  }
  return worst;
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
