/**
 * Where the plane must stop: inside the dashed line the cut is no more than scraper and paper take, so the plane stays off.
 *
 * Examination and the field of cuts, mm -> one hatched shape, px.
 */
import type { Examination } from "../../server/core/examination.ts";
import { contourLines } from "../chart/contourLines.ts";
import { closedPath } from "../chart/path.ts";
import type { PlanScales } from "../chart/scales.ts";
import type { Sheet } from "../chart/sheet.ts";
import type { Group } from "./boardPlan.ts";

export function drawPlaningLimits(target: Group, examination: Examination, sheet: Sheet, scales: PlanScales): void {
  const { planing } = examination;
  if (planing === null || sheet.field === null) return;
  const shallow = { ...sheet.field, depthsMm: sheet.field.depthsMm.map((depth) => -depth) };
  const rings = contourLines(shallow, [-planing.finishAllowanceMm]).flatMap((line) => line.rings);
  target
    .append("path")
    .attr("class", "plane-stops")
    .attr("data-finish-allowance-mm", planing.finishAllowanceMm)
    .attr("fill", "url(#scraper-hatch)")
    .attr("fill-rule", "evenodd")
    .attr("d", rings.map((ring) => closedPath(ring.map(([x, y]) => [scales.x(x), scales.y(y)]))).join(""));
}
