/**
 * The chosen string's profile: straightedge laid on it with its largest gap, the target under it, the chosen crossline through all.
 *
 * Draws into the groups that profiles.ts leaves. The straightedge touches where it really touches.
 */
import { select } from "d3";
import type { Examination } from "../../server/core/examination.ts";
import type { Choice } from "../chart/choice.ts";
import { depthText } from "../chart/format.ts";
import { openPath } from "../chart/path.ts";
import { levelled, type PlanScales } from "../chart/scales.ts";
import { layStraightedge } from "../chart/straightedge.ts";
import type { ProfileSheet } from "./profiles.ts";

export function drawProfileChoice(
  target: SVGSVGElement,
  examination: Examination,
  scales: PlanScales,
  sheet: ProfileSheet,
  choice: Choice,
): void {
  const svg = select(target);
  svg.selectAll("g.profile").classed("chosen", (_, i) => i === choice.string);
  svg.selectAll("g.choice *").remove();
  svg.selectAll("line.chosen-crossline").remove();
  const profile = examination.profiles[choice.string];
  const row = sheet.rows[choice.string];
  const crossline = examination.sections[choice.crossline];
  const [fromMm, toMm] = scales.x.domain() as [number, number];
  if (crossline !== undefined && crossline.xMm >= fromMm && crossline.xMm <= toMm) {
    svg
      .append("line")
      .attr("class", "chosen-crossline")
      .attr("data-x-mm", crossline.xMm)
      .attr("x1", scales.x(crossline.xMm))
      .attr("x2", scales.x(crossline.xMm))
      .attr("y1", 22)
      .attr("y2", sheet.heightPx - 26);
  }
  if (profile === undefined || row === undefined) return;
  const group = svg
    .selectAll<SVGGElement, unknown>("g.profile")
    .filter((_, i) => i === choice.string)
    .select("g.choice");
  const level = levelled(profile);
  const xs = profile.xMm.map((x) => scales.x(x));
  const toPx = (heightsMm: readonly number[]) => level(heightsMm).map((z) => row.levelPx - z * row.pxPerMm);
  if (profile.targetMm !== null)
    group
      .append("path")
      .attr("class", "target")
      .attr("d", openPath(xs, toPx(profile.targetMm)));
  const laid = layStraightedge(profile);
  const edge = toPx(laid.heightsMm);
  const drawn = (values: readonly number[]) => values.slice(laid.from, laid.to + 1);
  group
    .append("path")
    .attr("class", "straightedge")
    .attr("d", openPath(drawn(xs), drawn(edge)));
  const { at, gapMm } = laid;
  const measuredPx = toPx(profile.measuredMm);
  const x = xs[at]!;
  group
    .append("path")
    .attr("class", "gap")
    .attr("data-gap-mm", gapMm)
    .attr("d", `M${x - 4},${edge[at]}h8M${x},${edge[at]}V${measuredPx[at]}M${x - 4},${measuredPx[at]}h8`);
  group
    .append("text")
    .attr("class", "gap-words")
    .attr("x", x + 7)
    .attr("y", (edge[at]! + measuredPx[at]!) / 2)
    .attr("dy", "0.35em")
    .text(`${depthText(gapMm)} under the straightedge`);
}
