/**
 * Where the target touches the present surface: small open triangles beside those places, only where nothing else stands.
 *
 * Examination in mm -> marks in px. The cut is nothing there, and everything deeper is governed by it.
 */
import { symbol, symbolTriangle } from "d3";
import type { Examination } from "../../server/core/examination.ts";
import type { Clearing } from "../chart/clearing.ts";
import type { PlanScales } from "../chart/scales.ts";
import type { Group } from "./boardPlan.ts";

const halfPx = 5;
/** From a place to its mark: over, under, and to either side of a number of two digits. */
const besidePx: readonly (readonly [number, number])[] = [
  [0, -13],
  [0, 13],
  [16, 0],
  [-16, 0],
];

export function drawContacts(target: Group, examination: Examination, scales: PlanScales, room: Clearing): void {
  const contacts = (examination.planing?.governedBy ?? []).filter((place) => place.governs === "contact");
  for (const { xMm, yMm } of contacts) {
    const free = besidePx
      .map(([right, down]) => ({ x: scales.x(xMm) + right, y: scales.y(yMm) + down }))
      .find(({ x, y }) => room.claim({ left: x - halfPx, right: x + halfPx, top: y - halfPx, bottom: y + halfPx }));
    if (free === undefined) continue;
    target
      .append("path")
      .attr("class", "contact")
      .attr("d", symbol(symbolTriangle, 42)())
      .attr("transform", `translate(${free.x},${free.y})`);
  }
}
