/**
 * Sections across the board at the crosslines, the nut end first: the unworn arc to scale, what was measured exaggerated from it.
 *
 * drawSections(target, examination, layout, choice): heights in mm of the gauge's frame, px from the layout. The arc is drawn true and every
 * departure from it (wear, target, template) × one rounded factor that is stated: at true scale a pit of 0.4 mm would be a hair.
 */
import { select } from "d3";
import type { Examination } from "../../server/core/examination.ts";
import type { Choice } from "../chart/choice.ts";
import { factorText, placeText, radiusText } from "../chart/format.ts";
import { openPath, stripPath } from "../chart/path.ts";
import { crownPx, type SectionCell, type SectionsLayout, sectionLabelPx } from "../chart/sectionCells.ts";
import { levelOf } from "../chart/sectionLevel.ts";
import type { Group } from "./boardPlan.ts";
import { drawLineLegend } from "./lineLegend.ts";

export function drawSections(
  target: SVGSVGElement,
  examination: Examination,
  layout: SectionsLayout,
  choice: Choice,
): void {
  const svg = select(target);
  svg.selectAll("*").remove();
  svg.attr("viewBox", `0 0 ${layout.widthPx} ${layout.heightPx}`);
  svg
    .append("text")
    .attr("class", "note")
    .attr("y", 14)
    .text(`Across, bass left: the arc to scale, wear ${factorText(layout.factor)}`);
  const chosen = examination.sections[choice.crossline];
  if (chosen !== undefined) {
    const radius = radiusText(chosen.templateRadiusMm);
    drawLineLegend(svg.append("g"), 0, 33, [
      { className: "template", name: `template R ${radius} on ${placeText(chosen.xMm)}` },
      ...(chosen.targetMm === null ? [] : [{ className: "target", name: "target" }]),
    ]);
  }
  for (const cell of layout.cells) {
    const isChosen = cell.index === choice.crossline;
    const group = svg
      .append("g")
      .attr("class", isChosen ? "section chosen" : "section")
      .attr("data-crossline", cell.index)
      .attr("transform", `translate(${cell.leftPx},${cell.topPx})`);
    drawSection(group, cell, layout, isChosen);
  }
}

function drawSection(target: Group, cell: SectionCell, { pxPerMm, factor }: SectionsLayout, isChosen: boolean): void {
  const { section } = cell;
  target.append("rect").attr("class", "touch").attr("width", cell.widthPx).attr("height", cell.heightPx);
  const middlePx = (cell.widthPx - sectionLabelPx) / 2 + 4;
  const xs = section.yMm.map((y) => middlePx + y * pxPerMm);
  const level = levelOf(section);
  const unworn = section.unwornMm.map((z, k) => crownPx - (z - level(k)) * pxPerMm);
  const departed = (heightsMm: readonly number[]) =>
    heightsMm.map((z, k) => unworn[k]! - (z - section.unwornMm[k]!) * factor * pxPerMm);
  const line = (name: string, ys: readonly number[]) =>
    target.append("path").attr("class", name).attr("d", openPath(xs, ys));
  const measured = departed(section.measuredMm);
  const worn = measured.map((y, k) => Math.max(y, unworn[k]!));
  target
    .append("path")
    .attr("class", "lost")
    .attr("d", stripPath(xs, unworn, worn));
  line("unworn", unworn);
  line("measured", measured);
  if (isChosen) {
    if (section.targetMm !== null) line("target", departed(section.targetMm));
    line("template", departed(section.templateMm)).attr("data-radius-mm", section.templateRadiusMm);
  }
  target
    .append("text")
    .attr("class", "crossline-name")
    .attr("x", cell.widthPx - 12)
    .attr("y", crownPx + 5)
    .attr("text-anchor", "end")
    .text(placeText(section.xMm));
}
