/**
 * Humps of workmanship on the profiles: the unworn line drawn heavy where a short straightedge rocks, and under it how high it is.
 *
 * Humps of one string in mm, its lines in px -> marks in px. The words stand under the unworn line and the target's, clear of what the
 * straightedge says over them.
 */
import type { HumpUnderString } from "../../server/core/examination.ts";
import { valueAlong } from "../chart/along.ts";
import { depthText } from "../chart/format.ts";
import { openPath } from "../chart/path.ts";
import type { PlanScales } from "../chart/scales.ts";
import type { Group } from "./boardPlan.ts";

const underLinesPx = 15;
/** Half the heavy piece, as a share of the profile's length. */
const halfPieceShare = 0.04;

/** The profile's places, mm, and at each its unworn surface and what lies lowest of that and the target, px. */
export type ProfileLines = {
  readonly xMm: readonly number[];
  readonly unwornPx: readonly number[];
  readonly lowestPx: readonly number[];
};

export function drawHumps(
  target: Group,
  humps: readonly HumpUnderString[],
  { xMm, unwornPx, lowestPx }: ProfileLines,
  scales: PlanScales,
): void {
  const stepMm = (halfPieceShare * ((xMm.at(-1) ?? 0) - (xMm[0] ?? 0))) / 4;
  for (const hump of humps) {
    const places = [-4, -3, -2, -1, 0, 1, 2, 3, 4].map((k) => hump.xMm + k * stepMm);
    const mark = target.append("g").attr("class", "hump-mark").attr("data-x-mm", hump.xMm);
    mark.append("path").attr(
      "d",
      openPath(
        places.map((x) => scales.x(x)),
        places.map((x) => valueAlong(xMm, unwornPx, x)),
      ),
    );
    mark
      .append("text")
      .attr("x", scales.x(hump.xMm))
      .attr("y", valueAlong(xMm, lowestPx, hump.xMm) + underLinesPx)
      .attr("text-anchor", "middle")
      .text(`hump ${depthText(hump.heightMm.value)}`);
  }
}
