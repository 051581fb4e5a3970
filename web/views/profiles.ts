/**
 * Profiles along every string, under the plan on the same x: measured in ink, unworn dashed, the wood lost between them.
 *
 * drawProfiles(target, examination, scales, rowPx): heights in mm of the gauge's frame. Each is levelled on the ends of its unworn surface
 * (so rows compare), then exaggerated by one rounded factor that is stated. The hollow stands at the end of each row with the
 * range it should have. Humps are marked (humpMarks.ts); the straightedge on the chosen string is profileChoice.ts.
 */
import { type Selection, select } from "d3";
import type { Examination, HollowUnderString } from "../../server/core/examination.ts";
import { depthRangeText, factorText, measuredText, placeText } from "../chart/format.ts";
import { ownHumps } from "../chart/ownHumps.ts";
import { openPath, stripPath } from "../chart/path.ts";
import { exaggeration, levelled, type PlanScales } from "../chart/scales.ts";
import { drawHumps } from "./humpMarks.ts";
import { drawLineLegend } from "./lineLegend.ts";

export type ProfileRow = {
  readonly topPx: number;
  readonly heightPx: number;
  /** px of a levelled height of 0 in this row. */
  readonly levelPx: number;
  readonly pxPerMm: number;
};

export type ProfileSheet = { readonly rows: readonly ProfileRow[]; readonly factor: number; readonly heightPx: number };

const headPx = 30;
const footPx = 34;

/** Rows in drawing order: the highest string on top, as on the plan. */
export function layProfiles(examination: Examination, scales: PlanScales, rowPx: number): ProfileSheet {
  const xPxPerMm = scales.x(1) - scales.x(0);
  const heights = examination.profiles.map((profile) => {
    const level = levelled(profile);
    const all = [profile.measuredMm, profile.unwornMm, profile.straightedgeMm].flatMap(level);
    return { topMm: Math.max(...all), lowMm: Math.min(...all) };
  });
  const tallestMm = Math.max(0.1, ...heights.map(({ topMm, lowMm }) => topMm - lowMm));
  const factor = exaggeration(tallestMm, rowPx - 22, xPxPerMm);
  const pxPerMm = xPxPerMm * factor;
  const count = examination.profiles.length;
  return {
    factor,
    heightPx: headPx + rowPx * count + footPx,
    rows: heights.map(({ topMm }, i) => {
      const topPx = headPx + rowPx * (count - 1 - i);
      return { topPx, heightPx: rowPx, levelPx: topPx + 8 + topMm * pxPerMm, pxPerMm };
    }),
  };
}

export function drawProfiles(
  target: SVGSVGElement,
  examination: Examination,
  scales: PlanScales,
  sheet: ProfileSheet,
): void {
  const svg = select(target);
  svg.selectAll("*").remove();
  svg.attr("viewBox", `0 0 ${scales.widthPx} ${sheet.heightPx}`);
  const endPx = scales.widthPx - scales.margins.right;
  svg
    .append("defs")
    .append("clipPath")
    .attr("id", "profile-view")
    .append("rect")
    .attr("x", scales.margins.left - 1)
    .attr("width", endPx - scales.margins.left + 2)
    .attr("height", sheet.heightPx);
  const heights = `heights ${factorText(sheet.factor)}`;
  const words = scales.widthPx < 800 ? heights : `Along each string, ${heights}`;
  svg.append("text").attr("class", "note").attr("x", scales.margins.left).attr("y", 14).text(words);
  drawLineLegend(svg.append("g"), scales.margins.left + words.length * 7.4 + 16, 14, [
    { className: "measured", name: "measured" },
    { className: "unworn", name: "unworn" },
    { className: "straightedge", name: "straightedge" },
    ...(examination.planing === null ? [] : [{ className: "target", name: "target" }]),
  ]);
  svg
    .append("text")
    .attr("class", "note")
    .attr("x", endPx + 16)
    .attr("y", 14)
    .text("hollow, mm");
  examination.profiles.forEach((profile, i) => {
    const row = sheet.rows[i]!;
    const level = levelled(profile);
    const xs = profile.xMm.map((x) => scales.x(x));
    const toPx = (heightsMm: readonly number[]) => level(heightsMm).map((z) => row.levelPx - z * row.pxPerMm);
    const measured = toPx(profile.measuredMm);
    const unworn = toPx(profile.unwornMm);
    const group = svg.append("g").attr("class", "profile").attr("data-string", profile.string);
    const view = group.append("g").attr("clip-path", "url(#profile-view)");
    const lost = measured.map((y, k) => Math.max(y, unworn[k]!));
    view
      .append("path")
      .attr("class", "lost")
      .attr("d", stripPath(xs, unworn, lost));
    view.append("path").attr("class", "unworn").attr("d", openPath(xs, unworn));
    view.append("path").attr("class", "measured").attr("d", openPath(xs, measured));
    view.append("g").attr("class", "choice");
    const humps = ownHumps(examination.surface).filter((hump) => hump.string === profile.string);
    const targetPx = profile.targetMm === null ? unworn : toPx(profile.targetMm);
    const lowestPx = unworn.map((y, k) => Math.max(y, targetPx[k]!));
    drawHumps(view.append("g"), humps, { xMm: profile.xMm, unwornPx: unworn, lowestPx }, scales);
    group
      .append("text")
      .attr("class", "string-name")
      .attr("x", scales.margins.left - 14)
      .attr("y", row.levelPx)
      .attr("dy", "0.35em")
      .attr("text-anchor", "end")
      .text(profile.string);
    const hollow = examination.surface.hollows.find((one) => one.string === profile.string);
    if (hollow !== undefined) drawHollow(group, hollow, endPx + 16, row.topPx + 9);
  });
  drawScale(svg.append("g").attr("class", "scale"), scales, sheet.heightPx - footPx + 8);
}

const stateWords: Readonly<Record<HollowUnderString["state"], string>> = {
  within: "as it should be",
  shallow: "too shallow",
  deep: "too deep",
  humped: "humped",
};

function drawHollow(
  target: Selection<SVGGElement, unknown, null, undefined>,
  hollow: HollowUnderString,
  x: number,
  y: number,
): void {
  const { hollowMm, withinMm, state } = hollow;
  target
    .append("text")
    .attr("class", "hollow")
    .attr("x", x)
    .attr("y", y + 6)
    .text(measuredText(hollowMm.value, hollowMm.u));
  target
    .append("text")
    .attr("class", "note hollow-range")
    .attr("x", x)
    .attr("y", y + 24)
    .text(`of ${depthRangeText(withinMm[0], withinMm[1])}`);
  if (state !== "within") {
    target
      .append("text")
      .attr("class", "note hollow-state")
      .attr("x", x)
      .attr("y", y + 41)
      .text(stateWords[state]);
  }
}

/** Millimetres from the nut, under the last row. */
function drawScale(target: Selection<SVGGElement, unknown, null, undefined>, scales: PlanScales, y: number): void {
  const [fromMm, toMm] = scales.x.domain() as [number, number];
  target.append("line").attr("x1", scales.x(fromMm)).attr("x2", scales.x(toMm)).attr("y1", y).attr("y2", y);
  const marks = target
    .selectAll("g")
    .data(scales.x.ticks(12))
    .join("g")
    .attr("transform", (mm) => `translate(${scales.x(mm)},${y})`);
  marks.append("line").attr("y2", 5);
  marks
    .append("text")
    .attr("class", "note")
    .attr("y", 20)
    .attr("text-anchor", "middle")
    .text((mm) => placeText(mm));
  target
    .append("text")
    .attr("class", "note")
    .attr("x", scales.widthPx - scales.margins.right + 16)
    .attr("y", y + 20)
    .text("mm from nut");
}
