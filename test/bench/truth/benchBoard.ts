/**
 * The bench's boards: seeded recipes of four kinds, five grids, three families, any share of wear.
 *
 * In: what is asked of a board. Out: its recipe, what its workshop aims at, and the bounds of its target. Lengths in mm.
 */
import { lineYMm } from "../../../data/make/plan.ts";
import { seededRandom } from "../../../data/make/random.ts";
import type { FlatFacet, Line, Plan, Recipe, WearMark } from "../../../data/make/recipe.ts";
import type { Bounds } from "../../support/referenceCut.ts";
import { aims, crownBoundMm, type Kind, projectionBoundMm } from "../../support/syntheticBoards.ts";
import { boundsOf, type Family, ownShape } from "./benchShape.ts";
import { type Band, benchWear } from "./benchWear.ts";

export type GridName = "3 x 5" | "5 x 7" | "7 x 11" | "7 x 13" | "20 x 20";
export const gridNames: readonly GridName[] = ["3 x 5", "5 x 7", "7 x 11", "7 x 13", "20 x 20"];
const kinds: readonly Kind[] = ["violin", "viola", "cello", "bass"];

type Asked = {
  readonly kind: Kind;
  readonly grid: GridName;
  readonly family: Family;
  readonly band: Band;
  readonly seed: number;
};

export type BenchBoard = { readonly asked: Asked; readonly recipe: Recipe; readonly bounds: Bounds };

export const bands: Readonly<Record<string, Band>> = {
  "0 %": [0, 0],
  "1-15 %": [0.01, 0.15],
  "15-30 %": [0.15, 0.3],
  "30-45 %": [0.3, 0.45],
};

const resolutionMm = 0.01;
const edgeInsetMm = 3;

function benchBoard(asked: Asked): BenchBoard {
  const random = seededRandom(asked.seed);
  const { plan } = aims[asked.kind];
  const bounds = boundsOf(asked.kind, random);
  const shape = ownShape(plan, asked.family, bounds, random);
  const crosslinesMm = crosslinesOf(plan, asked.grid);
  const lines = linesOf(plan, asked.grid);
  const tipRadiusMm = [0, 0.5, 1, 1.5][Math.floor(random.uniform() * 4)]!;
  const spots = crosslinesMm.flatMap((xMm) =>
    lines.map((line) => ({ xMm, yMm: lineYMm(plan, line, xMm, edgeInsetMm) })),
  );
  const recipe: Recipe = {
    seed: asked.seed + 1,
    plan,
    shape,
    wear: benchWear(plan, spots, asked.band, random),
    rounds: { crosslinesMm, lines, edgeInsetMm, missing: [], repeated: [] },
    probe: { tipRadiusMm, noiseMm: 0.01, resolutionMm },
    wood: null,
    writing: {
      file: "list",
      separator: ",",
      decimal: ".",
      unitMm: 1,
      decimals: 2,
      settings: settingsOf(asked, bounds, shape.facet, tipRadiusMm),
    },
  };
  return { asked, recipe, bounds };
}

/** Boards of a cell, a seed each: the kinds by turns (a facet is for cello and bass). The same seed is the same board. */
export function boardsOf(grid: GridName, family: Family, band: Band, count: number, firstSeed: number): BenchBoard[] {
  const those = family === "facet" ? kinds.slice(2) : kinds;
  return Array.from({ length: count }, (_, k) => firstSeed + k).map((seed) =>
    benchBoard({ kind: those[seed % those.length]!, grid, family, band, seed }),
  );
}

/** Noise of the hand and of rounding together, mm: what "in units of noise" means. */
export function scatterMm({ probe }: Recipe): number {
  return Math.hypot(probe.noiseMm, probe.resolutionMm / Math.sqrt(12));
}

/** The same board read with this noise. */
export function withNoise(recipe: Recipe, noiseMm: number, seed: number): Recipe {
  return { ...recipe, seed, probe: { ...recipe.probe, noiseMm } };
}

/** The same board with these marks, and cells read again. */
export function withMarks(recipe: Recipe, wear: readonly WearMark[], repeated: readonly string[] = []): Recipe {
  return { ...recipe, wear, rounds: { ...recipe.rounds, repeated } };
}

/** Closer together towards the nut, where boards wear. */
function crosslinesOf(plan: Plan, grid: GridName): number[] {
  const count = Number(grid.split(" x ")[1]);
  return Array.from({ length: count }, (_, k) => Math.round((0.015 + 0.97 * (k / (count - 1)) ** 1.3) * plan.lengthMm));
}

function linesOf(plan: Plan, grid: GridName): Line[] {
  const [lowest, second, third, highest] = plan.strings;
  if (grid === "3 x 5") return [lowest!, "centre", highest!];
  if (grid === "5 x 7") return [lowest!, second!, "centre", third!, highest!];
  if (grid === "20 x 20") return Array.from({ length: 20 }, (_, k) => ({ share: (2 * k) / 19 - 1 }));
  return [lowest!, `${lowest}/${second}`, second!, `${second}/${third}`, third!, `${third}/${highest}`, highest!];
}

function settingsOf(
  { kind }: Asked,
  bounds: Bounds,
  facet: FlatFacet | null,
  tipRadiusMm: number,
): (readonly [string, string])[] {
  const { plan, edgeLimitMm } = aims[kind];
  const ridge = facet && { flat_ridge_nut: facet.ridgeNutMm, flat_ridge_end: facet.ridgeEndMm };
  return Object.entries({
    instrument: kind,
    board_length: plan.lengthMm,
    width_nut: plan.widthNutMm,
    width_end: plan.widthEndMm,
    string_length: plan.stringLengthMm,
    spacing_nut: plan.spacingNutMm,
    spacing_bridge: plan.spacingBridgeMm,
    tip_radius: tipRadiusMm,
    resolution: resolutionMm,
    tension: "on",
    build: "solid",
    rut_width: 4,
    radius_nut: bounds.radiiMm[0],
    radius_middle: bounds.radiiMm[1],
    radius_end: bounds.radiiMm[2],
    hollow_lowest: bounds.hollowsMm[0],
    hollow_highest: bounds.hollowsMm[1],
    hollow_deepest: bounds.deepestAt,
    radius_tolerance: bounds.radiusBandMm,
    hollow_tolerance: bounds.hollowBandMm,
    projection_bound: projectionBoundMm,
    crown_bound: crownBoundMm,
    allowance: bounds.allowanceMm,
    edge_limit: edgeLimitMm,
    dress_at: dressAtMm,
    edge_inset: edgeInsetMm,
    ...ridge,
  }).map(([key, value]) => [key, String(value)] as const);
}

/** Depth of wear from which the bench's workshop dresses a board. */
const dressAtMm = 0.2;
