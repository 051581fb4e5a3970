/**
 * Legend of the shading: an upright bar right of the board, graduated in mm.
 *
 * drawShading paints the bar; this draws its frame and graduations over it. Deepest on top.
 */
import { type Selection, scaleLinear } from "d3";
import { contourText } from "../chart/format.ts";
import type { PlanScales } from "../chart/scales.ts";

export type LegendPlace = {
  readonly leftPx: number;
  readonly rightPx: number;
  readonly topPx: number;
  readonly bottomPx: number;
};

export function legendPlace(scales: PlanScales): LegendPlace {
  const middle = (scales.margins.top + scales.heightPx - scales.margins.bottom) / 2;
  const half = Math.min(70, (scales.heightPx - scales.margins.top - scales.margins.bottom) / 2 - 12);
  const leftPx = scales.widthPx - scales.margins.right + 34;
  return { leftPx, rightPx: leftPx + 12, topPx: Math.round(middle - half), bottomPx: Math.round(middle + half) };
}

export function drawLegend(
  target: Selection<SVGGElement, unknown, null, undefined>,
  place: LegendPlace,
  fullMm: number,
  name: string,
): void {
  const depth = scaleLinear([0, fullMm], [place.bottomPx, place.topPx]);
  target.attr("class", "legend").attr("data-full-mm", fullMm);
  target
    .append("rect")
    .attr("class", "frame")
    .attr("x", place.leftPx)
    .attr("y", place.topPx)
    .attr("width", place.rightPx - place.leftPx)
    .attr("height", place.bottomPx - place.topPx);
  target
    .append("text")
    .attr("class", "note")
    .attr("x", place.leftPx - 22)
    .attr("y", place.topPx - 12)
    .text(`${name}, mm`);
  const marks = target.selectAll("g.mark").data(depth.ticks(5)).join("g").attr("class", "mark");
  marks.attr("transform", (mm) => `translate(${place.rightPx},${depth(mm)})`);
  marks.append("line").attr("x2", 5);
  marks
    .append("text")
    .attr("class", "note")
    .attr("x", 9)
    .attr("dy", "0.35em")
    .text((mm) => contourText(mm));
}
