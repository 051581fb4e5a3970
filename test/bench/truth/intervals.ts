/**
 * Every stated value ± U of an examination beside the truth. Lengths in mm.
 *
 * In: a board as read and its examination. Out: value less truth and U, by what it is; nothing for what was not stated.
 */
import type { ThicknessTruth } from "../../../data/make/calliper.ts";
import { halfWidthMm } from "../../../data/make/plan.ts";
import type { Plan } from "../../../data/make/recipe.ts";
import type { Examination, Planing } from "../../../server/core/examination.ts";
import { familyHeightMm, nearestInFamily, type Parameters } from "../../support/referenceSurface.ts";
import { scatterMm } from "./benchBoard.ts";
import type { BoardRead } from "./boardRead.ts";

export type Interval = {
  readonly what: string;
  readonly offMm: number;
  readonly u: number;
  /** Noise of a reading on that board. */
  readonly scatterMm: number;
};

/** A deepest place is asked for where it is this deep and this many times the scatter. */
const deepEnough = { mm: 0.06, timesScatter: 6 } as const;

export function intervalsOf(read: BoardRead, examination: Examination): Interval[] {
  const { truth } = read.made;
  const { surface, planing, thickness } = examination;
  const interval = (what: string, stated: { value: number; u: number } | null, trueMm: number | null): Interval[] =>
    stated === null || trueMm === null
      ? []
      : [{ what, offMm: stated.value - trueMm, u: stated.u, scatterMm: scatterMm(read.board.recipe) }];
  const radius = (at: "nut" | "middle" | "end"): Interval[] =>
    interval(`radius ${at}`, surface.camberRadiusMm[at], truth.radiusMm[at]);
  const { deepest } = examination;
  const said = deepest && { value: deepest.depthMm, u: deepest.u };
  const sparesCut = planing?.spares === "deepest cut";
  return [
    ...radius("nut"),
    ...radius("middle"),
    ...radius("end"),
    ...surface.hollows.flatMap(({ hollowMm }, i) => interval("hollow", hollowMm, truth.hollowsMm[i]!)),
    ...interval("twist", surface.twistMm, truth.twistMm),
    ...interval("deepest place", isDeep(read) ? said : null, truth.deepestReading.depthMm),
    ...interval("plane-off", sparesCut ? planing.planeOffMm : null, read.wood?.least.deepestMm ?? null),
    ...interval(
      hasWornEdge(read) ? "thickness after, worn edge" : "thickness after",
      thickness?.edgeAfterMm ?? null,
      planing && thinnestAfterMm(read, examination, planing),
    ),
  ];
}

export function isDeep({ made, board }: BoardRead): boolean {
  const { depthMm } = made.truth.deepestReading;
  return depthMm > deepEnough.mm && depthMm > deepEnough.timesScatter * scatterMm(board.recipe);
}

/** Whether wear reaches an edge where thickness was read: nothing is read there, so no one can know how much of the cut it spares. */
function hasWornEdge({ board, made }: BoardRead): boolean {
  return made.truth.thickness.some(
    ({ xMm, side }) => made.wearMm(xMm, edgeYMm(board.recipe.plan, xMm, side)) > wornEdgeMm,
  );
}

const wornEdgeMm = 0.005;

function edgeYMm(plan: Plan, xMm: number, side: ThicknessTruth["side"]): number {
  return (side === "bass" ? -1 : 1) * halfWidthMm(plan, xMm);
}

/** What would truly be left at the thinnest edge where thickness was read, were the board planed to the tool's target. */
function thinnestAfterMm({ board, made }: BoardRead, examination: Examination, planing: Planing): number | null {
  if (board.recipe.shape.facet !== null) return null;
  const { plan } = board.recipe;
  const target = targetOf(plan, examination, planing);
  const left = made.truth.thickness.map(({ xMm, side, thicknessMm }) => {
    const yMm = edgeYMm(plan, xMm, side);
    const presentMm = made.unwornHeightMm(xMm, yMm) - made.wearMm(xMm, yMm);
    return thicknessMm - (presentMm - familyHeightMm(plan, null, target, xMm, yMm));
  });
  return Math.min(...left);
}

/** The target as its published heights (height less cut, at up to sixty readings) show it. */
function targetOf(plan: Plan, { points }: Examination, { target }: Planing): Parameters {
  const every = Math.ceil(points.length / 60);
  const some = points.filter((_, i) => i % every === 0);
  const heights = some.map(({ heightMm, cutMm }) => heightMm - (cutMm ?? Number.NaN));
  const { radiusMm, hollowMm } = target;
  const radii = [radiusMm.nut, radiusMm.middle, radiusMm.end];
  const start = [heights[0]!, 0, 0, 0, ...radii, hollowMm.lowest, hollowMm.highest, 0.5, 0, 0];
  return nearestInFamily(plan, null, some, heights, start).parameters;
}
