/**
 * The deepest place of a map: a ring about it, a leader, and its words over the board. One on each map: the deepest wear, the deepest cut.
 *
 * Examination in mm -> marks in px. "At least" where the tip may not have reached the bottom; "at the edge" there.
 */
import type { Examination } from "../../server/core/examination.ts";
import type { Clearing } from "../chart/clearing.ts";
import { deepestCutOf } from "../chart/deepestCut.ts";
import { depthText, depthWords, placeText } from "../chart/format.ts";
import type { PlanScales } from "../chart/scales.ts";
import { ringPx } from "../chart/soundings.ts";
import { wearIsAtLeast } from "../chart/wearIsAtLeast.ts";
import type { Group } from "./boardPlan.ts";

export function drawDeepest(target: Group, examination: Examination, scales: PlanScales, room: Clearing): void {
  const { deepest } = examination;
  if (deepest === null) return;
  const depth = depthWords(deepest.depthMm, deepest.u, wearIsAtLeast(examination));
  const words = `deepest ${depth} mm: ${deepest.kind}, ${deepest.string} string, ${deepest.note}, ${placeText(deepest.xMm)} mm from the nut`;
  drawRinged(target, { ...deepest, words }, scales, room);
}

export function drawDeepestCut(target: Group, examination: Examination, scales: PlanScales, room: Clearing): void {
  const cut = deepestCutOf(examination);
  if (cut === null) return;
  const how = cut.isRead ? " as read" : ", unread";
  const where = cut.isAtEdge ? `, at the ${cut.yMm < 0 ? "bass" : "treble"} edge` : "";
  const words = `deepest cut ${depthText(cut.cutMm)} mm${how}${where}, ${placeText(cut.xMm)} mm from the nut`;
  if (!cut.isRead) {
    const [x, y] = [scales.x(cut.xMm), scales.y(cut.yMm)];
    room.claim({ left: x - ringPx, right: x + ringPx, top: y - ringPx, bottom: y + ringPx });
  }
  drawRinged(target, { ...cut, words }, scales, room);
}

type Ringed = { readonly xMm: number; readonly yMm: number; readonly words: string };

function drawRinged(target: Group, { xMm, yMm, words }: Ringed, scales: PlanScales, room: Clearing): void {
  const [fromMm, toMm] = scales.x.domain() as [number, number];
  if (xMm < fromMm || xMm > toMm) return;
  const x = scales.x(xMm);
  const y = scales.y(yMm);
  const turnY = 24;
  const widthPx = words.length * 8.2;
  const isLeft = x + 26 + widthPx > scales.widthPx;
  const turnX = isLeft ? x - 20 : x + 20;
  target
    .append("circle")
    .attr("class", "deepest-ring")
    .attr("cx", x)
    .attr("cy", y)
    .attr("r", ringPx)
    .attr("data-x-mm", xMm)
    .attr("data-y-mm", yMm);
  const reach = Math.hypot(turnX - x, turnY - y);
  target
    .append("path")
    .attr("class", "leader")
    .attr(
      "d",
      `M${x + ((turnX - x) * ringPx) / reach},${y + ((turnY - y) * ringPx) / reach}L${turnX},${turnY}h${isLeft ? -8 : 8}`,
    );
  target
    .append("text")
    .attr("class", "deepest-words")
    .attr("x", isLeft ? Math.max(turnX - 12, widthPx) : turnX + 12)
    .attr("y", turnY)
    .attr("dy", "0.35em")
    .attr("text-anchor", isLeft ? "end" : "start")
    .text(words);
  if (y - ringPx < scales.margins.top)
    room.claim({ left: turnX - 4, right: turnX + widthPx, top: turnY - 9, bottom: turnY + 9 });
}
