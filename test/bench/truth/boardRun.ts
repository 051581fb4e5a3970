/**
 * One board of the bench, as read, through the tool and the other estimators, beside the truth. Lengths in mm.
 */
import type { HeightAt } from "../../../data/make/shape.ts";
import { type GridName, scatterMm } from "./benchBoard.ts";
import type { Family } from "./benchShape.ts";
import type { BoardRead } from "./boardRead.ts";
import { type Decided, rightDecision } from "./decisions.ts";
import { estimators, fittedSurface } from "./fitted.ts";
import { type Interval, intervalsOf, isDeep } from "./intervals.ts";
import { oracleSurface } from "./oracle.ts";
import { type SurfaceError, surfaceError } from "./surfaceError.ts";
import { examineBoard, toolSurface } from "./toolRun.ts";

export type BoardRun = {
  readonly grid: GridName;
  readonly family: Family;
  readonly band: string;
  readonly noiseMm: number;
  /** Noise of the hand and of rounding together. */
  readonly scatterMm: number;
  readonly seed: number;
  /** Null where only the fit was run. */
  readonly refused: boolean | null;
  readonly oracle: SurfaceError | null;
  /** By estimator's name. */
  readonly surfaces: Readonly<Record<string, SurfaceError | null>>;
  /** Depth of the deepest place as said, less that of the truly deepest reading; null: none is named or none is deep. */
  readonly deepestOffMm: number | null;
  readonly intervals: readonly Interval[];
  readonly decided: Decided | null;
};

export const toolName = "(d) tool";

/** What of a run is wanted besides the tool's surface. */
export type Wanted = { readonly estimators: boolean; readonly examination: boolean };

export function boardRun(read: BoardRead, band: string, wanted: Wanted): BoardRun {
  const { board, made, noiseMm } = read;
  const { recipe, asked } = board;
  const errorOf = (surface: HeightAt | null) => surface && surfaceError(recipe.plan, surface, made.unwornHeightMm);
  const examined = wanted.examination ? examineBoard(made) : null;
  const examination = examined?.outcome === "examined" ? examined.examination : null;
  const others = wanted.estimators ? Object.entries(estimators) : [];
  const right = rightDecision(read);
  const said = examination?.deepest ?? null;
  return {
    grid: asked.grid,
    family: asked.family,
    band,
    noiseMm,
    scatterMm: scatterMm(recipe),
    seed: asked.seed,
    refused: examined && examination === null,
    oracle: errorOf(oracleSurface(made, recipe)),
    surfaces: {
      [toolName]: errorOf(toolSurface(made)),
      ...Object.fromEntries(others.map(([name, one]) => [name, errorOf(fittedSurface(one, made, recipe))])),
    },
    deepestOffMm: said && isDeep(read) ? said.depthMm - made.truth.deepestReading.depthMm : null,
    intervals: examination ? intervalsOf(read, examination) : [],
    decided: examination &&
      right && {
        right,
        said: examination.verdict.decision,
        seed: asked.seed,
        name: `${asked.kind} ${asked.grid} ${noiseMm}`,
      },
  };
}
