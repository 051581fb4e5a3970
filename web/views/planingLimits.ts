/**
 * Where the plane must stop, and what holds the cut where it is.
 *
 * Inside the dashed line the cut is no more than scraper and paper take: the plane stays off. Triangles mark the places that govern the
 * cut, each just inside its place: point down where it is deepest, point up where the target already touches the present
 * surface. mm -> px.
 */
import { symbol, symbolTriangle } from "d3";
import type { Examination } from "../../server/core/examination.ts";
import { contourLines } from "../chart/contourLines.ts";
import { closedPath } from "../chart/path.ts";
import type { PlanScales } from "../chart/scales.ts";
import type { Sheet } from "../chart/sheet.ts";
import type { Group } from "./boardPlan.ts";

/** A mark stands this far from its place, towards the middle of the board, so that the sounding there can be read. */
const besidePx = 15;

export function drawPlaningLimits(
  onBoard: Group,
  overBoard: Group,
  examination: Examination,
  sheet: Sheet,
  scales: PlanScales,
): void {
  const { planing } = examination;
  if (planing === null || sheet.field === null) return;
  const shallow = { ...sheet.field, depthsMm: sheet.field.depthsMm.map((depth) => -depth) };
  const rings = contourLines(shallow, [-planing.finishAllowanceMm]).flatMap((line) => line.rings);
  onBoard
    .append("path")
    .attr("class", "plane-stops")
    .attr("data-finish-allowance-mm", planing.finishAllowanceMm)
    .attr("fill", "url(#scraper-hatch)")
    .attr("fill-rule", "evenodd")
    .attr("d", rings.map((ring) => closedPath(ring.map(([x, y]) => [scales.x(x), scales.y(y)]))).join(""));
  overBoard
    .selectAll("path.governs")
    .data(planing.governedBy)
    .join("path")
    .attr("class", (place) => `governs ${place.governs}`)
    .attr("d", symbol(symbolTriangle, 70)())
    .attr("transform", (place) => {
      const isDepth = place.governs === "depth";
      const inwards = place.yMm > 0 ? besidePx : -besidePx;
      return `translate(${scales.x(place.xMm)},${scales.y(place.yMm) + inwards}) rotate(${isDepth ? 180 : 0})`;
    });
}
