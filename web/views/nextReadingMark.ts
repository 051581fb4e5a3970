/**
 * The place to read next, on the plan: a pair of brackets about it, since a number may stand there.
 *
 * Examination in mm -> marks in px; nothing where no one reading would narrow the verdict, or the place is out of view. The brackets stand
 * clear of words that are there already, and take their room before the soundings do.
 */
import type { Examination } from "../../server/core/examination.ts";
import type { Box, Clearing } from "../chart/clearing.ts";
import type { PlanScales } from "../chart/scales.ts";
import { ringPx } from "../chart/soundings.ts";
import type { Group } from "./boardPlan.ts";

/** Nearest and farthest that a bracket may stand from the place, px: words may stand at the place already. */
const nearestPx = ringPx + 3;
const farthestPx = 72;
const stepPx = 3;
const footPx = 4;
const halfHeightPx = 8;

export function drawNextReading(target: Group, { verdict }: Examination, scales: PlanScales, room: Clearing): void {
  const next = verdict.nextReading;
  const [fromMm, toMm] = scales.x.domain() as [number, number];
  if (next === null || next.xMm < fromMm || next.xMm > toMm) return;
  const x = scales.x(next.xMm);
  const y = scales.y(next.yMm);
  const sides = [-1, 1] as const;
  const boxOf = (side: 1 | -1, awayPx: number): Box => ({
    left: x + (side < 0 ? -awayPx : awayPx - footPx),
    right: x + (side < 0 ? -awayPx + footPx : awayPx),
    top: y - halfHeightPx,
    bottom: y + halfHeightPx,
  });
  let awayPx = nearestPx;
  while (awayPx < farthestPx && !sides.every((side) => room.isFree(boxOf(side, awayPx)))) awayPx += stepPx;
  for (const side of sides) room.claim(boxOf(side, awayPx));
  const bracket = (side: 1 | -1): string =>
    `M${x + side * (awayPx - footPx)},${y - halfHeightPx}h${side * footPx}v${2 * halfHeightPx}h${-side * footPx}`;
  target
    .append("path")
    .attr("class", "next-reading")
    .attr("data-x-mm", next.xMm)
    .attr("data-y-mm", next.yMm)
    .attr("d", sides.map(bracket).join(""));
}
