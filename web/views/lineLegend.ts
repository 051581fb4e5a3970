/**
 * A legend of lines: a short piece of each line as it is drawn, and what it is.
 *
 * (target, place in px, lines) -> the place after the last, px. Letters of 13 px are taken to be 7.6 px wide, as those of the widest common faces are.
 */
import type { Group } from "./boardPlan.ts";

export type LegendLine = { readonly className: string; readonly name: string };

const piecePx = 22;
const letterPx = 7.6;

export function drawLineLegend(
  target: Group,
  leftPx: number,
  baselinePx: number,
  lines: readonly LegendLine[],
): number {
  let x = leftPx;
  for (const { className, name } of lines) {
    const item = target.append("g").attr("class", "line-legend");
    item
      .append("path")
      .attr("class", className)
      .attr("d", `M${x},${baselinePx - 4.5}h${piecePx}`);
    item
      .append("text")
      .attr("class", "note")
      .attr("x", x + piecePx + 5)
      .attr("y", baselinePx)
      .text(name);
    x += piecePx + 5 + name.length * letterPx + 14;
  }
  return x;
}
