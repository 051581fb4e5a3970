/**
 * The maps: wear and cut on one regular grid over the board, null outside the outline. Lengths in mm.
 *
 * Every second node of the wear map is enough to draw from, and a quarter of the answer to send.
 */
import type { Instrument } from "../board/instrument.ts";
import { halfWidthMm } from "../board/outline.ts";
import type { Maps } from "../examination.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";
import type { WearMap } from "../wear/wearMap.ts";
import type { CutPlan } from "./planingPlan.ts";
import { unwornCutMm } from "./planingSummary.ts";

const everyNode = 2;
/** Nodes on the outline itself count as on the board, on either side, however their place was rounded, mm. */
const roundingMm = 1e-9;

export function planingMaps(map: WearMap, plan: CutPlan | null, surface: UnwornSurface, instrument: Instrument): Maps {
  const xMm = map.xMm.filter((_, column) => column % everyNode === 0);
  const yMm = map.yMm.filter((_, row) => row % everyNode === 0);
  const wearAt = (row: number, column: number): number => map.wearMm[row * everyNode][column * everyNode];
  const isOnBoard = (x: number, y: number): boolean => Math.abs(y) <= halfWidthMm(instrument, x) + roundingMm;
  const overBoard = (at: (row: number, column: number) => number | null) =>
    yMm.map((y, row) => xMm.map((x, column) => (isOnBoard(x, y) ? at(row, column) : null)));
  return {
    xMm,
    yMm,
    wearMm: overBoard(wearAt),
    cutMm: overBoard((row, column) =>
      plan === null ? null : unwornCutMm(plan, surface, { xMm: xMm[column], yMm: yMm[row] }) - wearAt(row, column),
    ),
  };
}
