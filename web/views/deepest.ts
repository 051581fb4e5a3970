/**
 * The deepest place: a ring about it, a leader, and its words over the board.
 *
 * Examination in mm -> marks in px. "At least" where the tip could not reach the bottom.
 */
import type { Deepest, Examination } from "../../server/core/examination.ts";
import type { Clearing } from "../chart/clearing.ts";
import { depthText, measuredText, placeText } from "../chart/format.ts";
import type { PlanScales } from "../chart/scales.ts";
import type { Group } from "./boardPlan.ts";

const ringPx = 12;

export function drawDeepest(target: Group, examination: Examination, scales: PlanScales, room: Clearing): void {
  const { deepest } = examination;
  if (deepest === null) return;
  const x = scales.x(deepest.xMm);
  const y = scales.y(deepest.yMm);
  const [fromMm, toMm] = scales.x.domain() as [number, number];
  if (deepest.xMm < fromMm || deepest.xMm > toMm) return;
  const words = deepestInWords(deepest);
  const turnY = 24;
  const widthPx = words.length * 7.2;
  const isLeft = x + 26 + widthPx > scales.widthPx;
  const turnX = isLeft ? x - 20 : x + 20;
  target
    .append("circle")
    .attr("class", "deepest-ring")
    .attr("cx", x)
    .attr("cy", y)
    .attr("r", ringPx)
    .attr("data-x-mm", deepest.xMm)
    .attr("data-y-mm", deepest.yMm);
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
    .attr("x", isLeft ? turnX - 12 : turnX + 12)
    .attr("y", turnY)
    .attr("dy", "0.35em")
    .attr("text-anchor", isLeft ? "end" : "start")
    .text(words);
  if (y - ringPx < scales.margins.top)
    room.claim({ left: turnX - 4, right: turnX + widthPx, top: turnY - 9, bottom: turnY + 9 });
}

function deepestInWords(deepest: Deepest): string {
  const depth = deepest.atLeast ? `at least ${depthText(deepest.depthMm)}` : measuredText(deepest.depthMm, deepest.u);
  return `deepest ${depth} mm: ${deepest.kind}, ${deepest.string} string, ${deepest.note}, ${placeText(deepest.xMm)} mm from the nut`;
}
