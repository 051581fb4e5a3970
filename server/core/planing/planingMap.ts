/**
 * The maps: wear and cut on one regular grid over the board, null outside the outline. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import { halfWidthMm } from "../board/outline.ts";
import type { Maps } from "../examination.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";
import type { WearMap } from "../wear/wearMap.ts";
import { type Plan, unwornCutMm } from "./planingSummary.ts";

export function planingMaps(map: WearMap, plan: Plan | null, surface: UnwornSurface, instrument: Instrument): Maps {
  const overBoard = (at: (row: number, column: number) => number | null) =>
    map.yMm.map((yMm, row) =>
      map.xMm.map((xMm, column) => (Math.abs(yMm) <= halfWidthMm(instrument, xMm) ? at(row, column) : null)),
    );
  return {
    xMm: map.xMm,
    yMm: map.yMm,
    wearMm: overBoard((row, column) => map.wearMm[row][column]),
    cutMm: overBoard((row, column) =>
      plan === null
        ? null
        : unwornCutMm(plan, surface, { xMm: map.xMm[column], yMm: map.yMm[row] }) - map.wearMm[row][column],
    ),
  };
}
