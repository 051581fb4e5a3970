/**
 * Soundings on the plan: numbers in hundredths of a millimetre, dots for readings in which nothing was found.
 *
 * Which is which comes from chart/soundings.ts; this draws them, light on deep shading and dark on pale.
 */
import type { Examination } from "../../server/core/examination.ts";
import type { Clearing } from "../chart/clearing.ts";
import { soundingText } from "../chart/format.ts";
import { type MapKind, wantsLightText } from "../chart/palette.ts";
import type { PlanScales } from "../chart/scales.ts";
import { soundings } from "../chart/soundings.ts";
import type { Group } from "./boardPlan.ts";

export function drawSoundings(
  target: Group,
  examination: Examination,
  kind: MapKind,
  scales: PlanScales,
  room: Clearing,
  colourAt: (xMm: number, yMm: number) => string,
): void {
  const marks = soundings(examination, kind, scales, room);
  target
    .selectAll("circle")
    .data(marks.filter((mark) => mark.show !== "number"))
    .join("circle")
    .attr("class", (mark) => `reading ${mark.show}`)
    .attr("cx", (mark) => scales.x(mark.xMm))
    .attr("cy", (mark) => scales.y(mark.yMm))
    .attr("r", (mark) => (mark.show === "noise" ? 1.1 : 1.7));
  target
    .selectAll("text")
    .data(marks.filter((mark) => mark.show === "number"))
    .join("text")
    .attr("class", (mark) => (wantsLightText(colourAt(mark.xMm, mark.yMm)) ? "sounding light" : "sounding dark"))
    .attr("data-x-mm", (mark) => mark.xMm)
    .attr("data-y-mm", (mark) => mark.yMm)
    .attr("x", (mark) => scales.x(mark.xMm))
    .attr("y", (mark) => scales.y(mark.yMm))
    .attr("dy", "0.35em")
    .attr("text-anchor", "middle")
    .attr("stroke", (mark) => colourAt(mark.xMm, mark.yMm))
    .text((mark) => soundingText(mark.depthMm));
}
