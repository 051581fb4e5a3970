/**
 * The place to read next, on the plan: a pair of brackets about it, since a number may stand there.
 *
 * Examination in mm -> marks in px; nothing where no one reading would narrow the verdict, or the place is out of view. The brackets take
 * their room before the numbers do.
 */
import type { Examination } from "../../server/core/examination.ts";
import type { Clearing } from "../chart/clearing.ts";
import type { PlanScales } from "../chart/scales.ts";
import { ringPx } from "../chart/soundings.ts";
import type { Group } from "./boardPlan.ts";

const fromPlacePx = ringPx + 3;
const footPx = 4;
const halfHeightPx = 8;

export function drawNextReading(target: Group, { verdict }: Examination, scales: PlanScales, room: Clearing): void {
  const next = verdict.nextReading;
  const [fromMm, toMm] = scales.x.domain() as [number, number];
  if (next === null || next.xMm < fromMm || next.xMm > toMm) return;
  const x = scales.x(next.xMm);
  const y = scales.y(next.yMm);
  const bracket = (side: 1 | -1): string => {
    const at = x + side * fromPlacePx;
    room.claim({
      left: Math.min(at, at - side * footPx),
      right: Math.max(at, at - side * footPx),
      top: y - halfHeightPx,
      bottom: y + halfHeightPx,
    });
    return `M${at - side * footPx},${y - halfHeightPx}H${at}V${y + halfHeightPx}h${-side * footPx}`;
  };
  target
    .append("path")
    .attr("class", "next-reading")
    .attr("data-x-mm", next.xMm)
    .attr("data-y-mm", next.yMm)
    .attr("d", `${bracket(-1)}${bracket(1)}`);
}
