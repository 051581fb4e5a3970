/**
 * The chosen string and crossline on the plan: an accent line along, a dotted one across, a mark where they meet.
 */
import { select } from "d3";
import type { Examination } from "../../server/core/examination.ts";
import { stringYMm } from "../chart/board.ts";
import type { Choice } from "../chart/choice.ts";
import type { PlanScales } from "../chart/scales.ts";
import { positionNamesPx } from "./boardPlan.ts";

export function drawPlanChoice(
  target: SVGSVGElement,
  examination: Examination,
  scales: PlanScales,
  choice: Choice,
): void {
  const { instrument, sections } = examination;
  const group = select(target).select<SVGGElement>("g.choice");
  group.selectAll("*").remove();
  const [fromMm, toMm] = scales.x.domain() as [number, number];
  const endMm = Math.min(toMm, instrument.boardLengthMm.value);
  group
    .append("line")
    .attr("class", "chosen-string")
    .attr("x1", scales.x(fromMm))
    .attr("x2", scales.x(endMm))
    .attr("y1", scales.y(stringYMm(instrument, choice.string, fromMm)))
    .attr("y2", scales.y(stringYMm(instrument, choice.string, endMm)));
  const crossline = sections[choice.crossline];
  if (crossline !== undefined && crossline.xMm >= fromMm && crossline.xMm <= toMm) {
    group
      .append("line")
      .attr("class", "chosen-crossline")
      .attr("data-x-mm", crossline.xMm)
      .attr("x1", scales.x(crossline.xMm))
      .attr("x2", scales.x(crossline.xMm))
      .attr("y1", 34)
      .attr("y2", scales.heightPx - positionNamesPx);
  }
  select(target)
    .selectAll<SVGTextElement, unknown>("text.string-name")
    .classed("chosen", (_, i) => i === choice.string);
}
