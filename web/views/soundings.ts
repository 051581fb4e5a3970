/**
 * Soundings on the plan: numbers in hundredths of a millimetre, a full mark where a number had no room, a tiny dot where nothing was found.
 *
 * Which is which comes from chart/soundings.ts; this draws them, light on deep shading and dark on pale. mm -> px.
 */
import type { Examination } from "../../server/core/examination.ts";
import type { PlaceMm } from "../chart/board.ts";
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
  ringed: PlaceMm | null,
  colourAt: (xMm: number, yMm: number) => string,
): void {
  const marks = soundings(examination, kind, scales, room, ringed);
  const light = (xMm: number, yMm: number) => (wantsLightText(colourAt(xMm, yMm)) ? "light" : "dark");
  target
    .selectAll("circle")
    .data(marks.filter((mark) => mark.show === "noise"))
    .join("circle")
    .attr("class", "reading noise")
    .attr("cx", (mark) => scales.x(mark.xMm))
    .attr("cy", (mark) => scales.y(mark.yMm))
    .attr("r", 1);
  target
    .selectAll("path.reading")
    .data(marks.filter((mark) => mark.show === "beside" || mark.show === "crowded"))
    .join("path")
    .attr("class", (mark) => `reading ${mark.show} ${light(mark.xMm, mark.yMm)}`)
    .attr("d", (mark) => `M${scales.x(mark.xMm) - 2.5},${scales.y(mark.yMm) - 2.5}h5v5h-5Z`);
  target
    .selectAll("text")
    .data(marks.filter((mark) => mark.show === "number" || mark.show === "beside"))
    .join("text")
    .attr("class", (mark) => `sounding ${mark.show} ${light(xOfNumber(mark.xMm, mark.asidePx, scales), mark.yMm)}`)
    .attr("data-x-mm", (mark) => mark.xMm)
    .attr("data-y-mm", (mark) => mark.yMm)
    .attr("x", (mark) => scales.x(mark.xMm) + mark.asidePx)
    .attr("y", (mark) => scales.y(mark.yMm))
    .attr("dy", "0.35em")
    .attr("text-anchor", "middle")
    .attr("stroke", (mark) => colourAt(xOfNumber(mark.xMm, mark.asidePx, scales), mark.yMm))
    .text((mark) => soundingText(mark.depthMm));
}

const xOfNumber = (xMm: number, asidePx: number, scales: PlanScales): number =>
  scales.x.invert(scales.x(xMm) + asidePx);
