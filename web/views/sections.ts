/**
 * Sections across the board at the crosslines, the nut end first: the unworn arc to scale, what was measured exaggerated from it.
 *
 * drawSections(target, examination, widthPx, way, choice): heights in mm of the gauge's frame. Each section is levelled on the ends of its unworn
 * arc; the arc is drawn true, and every departure from it (wear, target, template) × one rounded factor that is stated: at true
 * scale a pit of 0.4 mm would be a hair. Stacked at the side of the plan, or side by side as a strip.
 */
import { select } from "d3";
import type { Examination, Section } from "../../server/core/examination.ts";
import type { Choice } from "../chart/choice.ts";
import { factorText, placeText, radiusText } from "../chart/format.ts";
import { openPath, stripPath } from "../chart/path.ts";

export type SectionsSheet = { readonly factor: number; readonly heightPx: number; readonly widthPx: number };

const labelPx = 46;
const headPx = 44;
const cellPx = 220;
/** No more sections than a page has room for; the chosen one is always among them. */
const mostSections = 14;

export function drawSections(
  target: SVGSVGElement,
  examination: Examination,
  roomPx: number,
  way: "stack" | "strip",
  choice: Choice,
): SectionsSheet {
  const svg = select(target);
  svg.selectAll("*").remove();
  const shown = shownSections(examination.sections, choice.crossline);
  const widestMm = examination.instrument.widthEndMm.value;
  const armPx = (way === "stack" ? roomPx : cellPx) - labelPx - 12;
  const pxPerMm = armPx / widestMm;
  const factor = departureFactor(
    shown.map(({ section }) => section),
    pxPerMm,
  );
  let top = headPx;
  let left = 0;
  const cells = shown.map(({ section, index }) => {
    const rise = riseMm(section) * pxPerMm;
    const fall = departureMm(section) * factor * pxPerMm;
    const cell = { section, index, left, crownPx: top + 14, heightPx: Math.max(44, rise + fall + 26) };
    if (way === "stack") top += cell.heightPx;
    else left += cellPx;
    return cell;
  });
  const heightPx = way === "stack" ? top + 8 : headPx + Math.max(...cells.map((cell) => cell.heightPx)) + 8;
  const widthPx = way === "stack" ? roomPx : Math.max(roomPx, left);
  svg.attr("viewBox", `0 0 ${widthPx} ${heightPx}`).attr("width", widthPx).attr("height", heightPx);
  const chosen = examination.sections[choice.crossline];
  const head = svg.append("text").attr("class", "note").attr("y", 14);
  head
    .append("tspan")
    .attr("x", 0)
    .text(`Across, bass left: departures ${factorText(factor)}`);
  if (chosen !== undefined) {
    head
      .append("tspan")
      .attr("class", "accent")
      .attr("x", 0)
      .attr("dy", 18)
      .text(`template R ${radiusText(chosen.templateRadiusMm)} on ${placeText(chosen.xMm)}`);
  }

  for (const cell of cells) {
    const { section, index } = cell;
    const isChosen = index === choice.crossline;
    const group = svg
      .append("g")
      .attr("class", isChosen ? "section chosen" : "section")
      .attr("data-crossline", index)
      .attr("transform", `translate(${cell.left},0)`);
    group
      .append("rect")
      .attr("class", "touch")
      .attr("x", 0)
      .attr("y", way === "stack" ? cell.crownPx - 14 : headPx)
      .attr("width", way === "stack" ? widthPx : cellPx)
      .attr("height", way === "stack" ? cell.heightPx : heightPx - headPx);
    const xs = section.yMm.map((y) => armPx / 2 + 4 + y * pxPerMm);
    const level = levelOf(section);
    const unworn = section.unwornMm.map((z, k) => cell.crownPx - (z - level(k)) * pxPerMm);
    const departed = (heightsMm: readonly number[]) =>
      heightsMm.map((z, k) => unworn[k]! - (z - section.unwornMm[k]!) * factor * pxPerMm);
    const measured = departed(section.measuredMm);
    group
      .append("path")
      .attr("class", "lost")
      .attr(
        "d",
        stripPath(
          xs,
          unworn,
          measured.map((y, k) => Math.max(y, unworn[k]!)),
        ),
      );
    group.append("path").attr("class", "unworn").attr("d", openPath(xs, unworn));
    group.append("path").attr("class", "measured").attr("d", openPath(xs, measured));
    if (isChosen) {
      if (section.targetMm !== null)
        group
          .append("path")
          .attr("class", "target")
          .attr("d", openPath(xs, departed(section.targetMm)));
      group
        .append("path")
        .attr("class", "template")
        .attr("data-radius-mm", section.templateRadiusMm)
        .attr("d", openPath(xs, departed(section.templateMm)));
    }
    group
      .append("text")
      .attr("class", "crossline-name")
      .attr("x", way === "stack" ? widthPx : cellPx - 20)
      .attr("y", cell.crownPx + 5)
      .attr("text-anchor", "end")
      .text(placeText(section.xMm));
  }
  return { factor, heightPx, widthPx };
}

/** Level of the line through the unworn arc's ends, raised to its crown, so that the crown stands at 0. */
function levelOf(section: Section): (k: number) => number {
  const { yMm, unwornMm } = section;
  const first = unwornMm[0] ?? 0;
  const last = unwornMm.at(-1) ?? 0;
  const run = (yMm.at(-1) ?? 1) - (yMm[0] ?? 0);
  const tilt = (k: number) => first + ((last - first) * (yMm[k]! - yMm[0]!)) / run;
  const crown = Math.max(...unwornMm.map((z, k) => z - tilt(k)));
  return (k) => tilt(k) + crown;
}

function riseMm(section: Section): number {
  const level = levelOf(section);
  return -Math.min(...section.unwornMm.map((z, k) => z - level(k)));
}

/** The largest fall of a line below the unworn arc. */
const fallMm = (section: Section, heightsMm: readonly number[]): number =>
  Math.max(0.05, ...heightsMm.map((z, k) => section.unwornMm[k]! - z));

const departureMm = (section: Section): number => fallMm(section, section.measuredMm);

/** The largest departure of anything that is drawn, either way. */
const farthestMm = (section: Section): number =>
  Math.max(
    ...[section.measuredMm, section.targetMm ?? [], section.templateMm].flatMap((heightsMm) =>
      heightsMm.map((z, k) => Math.abs(z - section.unwornMm[k]!)),
    ),
  );

/** Rounded so that the largest departure fills no more than some 26 px. */
function departureFactor(sections: readonly Section[], pxPerMm: number): number {
  const largest = Math.max(...sections.map(farthestMm));
  const fits = [1, 2, 4, 5, 6, 8, 10, 12].filter((factor) => largest * factor * pxPerMm <= 26);
  return fits.at(-1) ?? 1;
}

function shownSections(sections: readonly Section[], chosen: number): readonly { section: Section; index: number }[] {
  const stride = Math.ceil(sections.length / mostSections);
  return sections
    .map((section, index) => ({ section, index }))
    .filter(({ index }) => index % stride === chosen % stride);
}
