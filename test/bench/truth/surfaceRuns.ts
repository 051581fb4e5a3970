/**
 * Every board of the bench, read at each noise, with every surface laid beside the truth.
 *
 * Out: one run a board and noise, lengths in mm. The board is made and the ball lowered once; only the noise is drawn anew.
 */
import { type MadeBoard, makeBoard, readAgain } from "../../../data/make/board.ts";
import type { HeightAt } from "../../../data/make/shape.ts";
import {
  type BenchBoard,
  benchBoard,
  type Family,
  type GridName,
  kinds,
  resolutionMm,
  withNoise,
} from "./benchBoard.ts";
import type { Band } from "./benchWear.ts";
import { estimators, fittedSurface } from "./fitted.ts";
import { oracleSurface } from "./oracle.ts";
import { type SurfaceError, surfaceError } from "./surfaceError.ts";
import { examineBoard, toolSurface } from "./toolRun.ts";

export const bands: Readonly<Record<string, Band>> = {
  "0 %": [0, 0],
  "1-15 %": [0.01, 0.15],
  "15-30 %": [0.15, 0.3],
  "30-45 %": [0.3, 0.45],
};
export const noisesMm: readonly number[] = [0.005, 0.01, 0.02];

export type SurfaceRun = {
  readonly grid: GridName;
  readonly family: Family;
  readonly band: string;
  readonly noiseMm: number;
  /** Noise of the hand and of rounding together: what "in units of noise" means. */
  readonly scatterMm: number;
  readonly seed: number;
  readonly refused: boolean;
  readonly oracle: SurfaceError | null;
  /** By estimator's name; the tool's own is "(d) tool". */
  readonly surfaces: Readonly<Record<string, SurfaceError | null>>;
  /** Depth of the deepest place as said, less that of the truly deepest reading; null: none is named or none is there. */
  readonly deepestOffMm: number | null;
};

export const toolName = "(d) tool";
/** Wear this many times the scatter is deep enough to ask how well its depth is told. */
const deepEnough = 6;

export type Read = {
  readonly board: BenchBoard;
  readonly made: MadeBoard;
  readonly noiseMm: number;
  readonly seed: number;
};

/** The board as read at each noise. */
export function readAtEachNoise(board: BenchBoard): Read[] {
  const made = makeBoard(board.recipe);
  return noisesMm.map((noiseMm, k) => {
    const recipe = withNoise(board.recipe, noiseMm, board.asked.seed * 7 + k);
    return { board: { ...board, recipe }, made: readAgain(made, recipe), noiseMm, seed: board.asked.seed };
  });
}

/** Boards of a cell: the kinds by turns (a facet is for cello and bass). */
export function boardsOf(grid: GridName, family: Family, band: Band, count: number, firstSeed: number): BenchBoard[] {
  const those = family === "facet" ? kinds.slice(2) : kinds;
  return Array.from({ length: count }, (_, k) =>
    benchBoard({ kind: those[k % those.length]!, grid, family, band, seed: firstSeed + k }),
  );
}

export function surfaceRun({ board, made, noiseMm, seed }: Read, band: string, withEstimators: boolean): SurfaceRun {
  const { recipe, asked } = board;
  const errorOf = (surface: HeightAt | null) => surface && surfaceError(recipe.plan, surface, made.unwornHeightMm);
  const examined = examineBoard(made);
  const scatterMm = Math.hypot(noiseMm, resolutionMm / Math.sqrt(12));
  const others = withEstimators ? Object.entries(estimators) : [];
  const depthMm = made.truth.deepestReading.depthMm;
  const said = examined.outcome === "examined" ? examined.examination.deepest : null;
  return {
    grid: asked.grid,
    family: asked.family,
    band,
    noiseMm,
    scatterMm,
    seed,
    refused: examined.outcome === "refused",
    oracle: errorOf(oracleSurface(made, recipe)),
    surfaces: {
      [toolName]: errorOf(toolSurface(made)),
      ...Object.fromEntries(others.map(([name, one]) => [name, errorOf(fittedSurface(one, made, recipe))])),
    },
    deepestOffMm: said && depthMm > deepEnough * scatterMm ? said.depthMm - depthMm : null,
  };
}
