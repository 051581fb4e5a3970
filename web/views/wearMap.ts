/**
 * The plan as a chart of depths: contours, soundings, unread ground, the deepest place; under it lies the canvas of shading.
 *
 * drawWearMap(target, examination, sheet, scales, ramp): examination in mm, scales in px. Three maps on the same plan: wood lost,
 * wood to take off, humps. What depends on the choice is drawn by planChoice.ts, into the group this leaves for it.
 */
import { select } from "d3";
import type { Examination } from "../../server/core/examination.ts";
import type { PlaceMm } from "../chart/board.ts";
import { clearing } from "../chart/clearing.ts";
import { contourLines } from "../chart/contourLines.ts";
import { deepestCutOf } from "../chart/deepestCut.ts";
import { depthAt } from "../chart/field.ts";
import type { Ramp } from "../chart/palette.ts";
import { closedPath } from "../chart/path.ts";
import type { PlanScales } from "../chart/scales.ts";
import { type Sheet, shadeOf } from "../chart/sheet.ts";
import { unreadRings } from "../chart/unread.ts";
import { drawPositions, drawStringNames, drawStrings, type Group, outlinePath } from "./boardPlan.ts";
import { drawContacts } from "./contacts.ts";
import { drawContourNames, drawContours } from "./contours.ts";
import { drawDeepest, drawDeepestCut } from "./deepest.ts";
import { drawHollowsLooked } from "./hollowsLooked.ts";
import { drawLegend, legendPlace } from "./legend.ts";
import { drawNextReading } from "./nextReadingMark.ts";
import { drawPlaningLimits } from "./planingLimits.ts";
import { drawSoundings } from "./soundings.ts";

export function drawWearMap(
  target: SVGSVGElement,
  examination: Examination,
  sheet: Sheet,
  scales: PlanScales,
  ramp: Ramp,
): void {
  const svg = select(target);
  svg.selectAll("*").remove();
  svg.attr("viewBox", `0 0 ${scales.widthPx} ${scales.heightPx}`);
  const { instrument } = examination;
  const outline = outlinePath(instrument, scales);
  defineShapes(target, outline, scales);
  const layer = (name: string): Group => svg.append("g").attr("class", name);
  const colourAt = (xMm: number, yMm: number): string => {
    const depthMm = sheet.field === null ? Number.NaN : depthAt(sheet.field, xMm, yMm);
    return ramp(shadeOf(sheet, depthMm));
  };
  const lines = sheet.field === null ? [] : contourLines(sheet.field, sheet.levelsMm);
  const room = clearing();

  const view = layer("view").attr("clip-path", "url(#plan-view)");
  const board = view.append("g").attr("clip-path", "url(#board-outline)");
  drawUnread(board.append("g").attr("class", "unread"), examination, scales);
  drawContours(board.append("g").attr("class", "contours"), lines, scales);
  drawPositions(layer("positions"), instrument, scales);
  drawStrings(view.append("g").attr("class", "strings"), instrument, scales);
  if (sheet.kind === "cut") drawPlaningLimits(board.append("g"), examination, sheet, scales);
  view.append("path").attr("class", "outline").attr("d", outline);
  const deepest = layer("deepest");
  if (sheet.kind === "wear") drawDeepest(deepest, examination, scales, room);
  if (sheet.kind === "cut") drawDeepestCut(deepest, examination, scales, room);
  drawHollowsLooked(view.append("g"), examination, scales, room);
  if (sheet.kind === "wear") drawNextReading(view.append("g"), examination, scales, room);
  const soundings = view.append("g").attr("class", "soundings");
  drawSoundings(soundings, examination, sheet.kind, scales, room, ringedPlace(examination, sheet), colourAt);
  if (sheet.kind === "cut") drawContacts(view.append("g").attr("class", "contacts"), examination, scales, room);
  drawContourNames(view.append("g").attr("class", "contour-names"), lines, instrument, scales, room, colourAt);
  drawStringNames(layer("string-names"), instrument, scales);
  if (sheet.field !== null) drawLegend(layer("legend"), legendPlace(scales), sheet.fullMm, sheet.legend);
  layer("choice");
}

/** The reading that the map rings: its number comes first. */
function ringedPlace(examination: Examination, sheet: Sheet): PlaceMm | null {
  const { deepest } = examination;
  if (sheet.kind === "wear") return deepest === null ? null : [deepest.xMm, deepest.yMm];
  const cut = sheet.kind === "cut" ? deepestCutOf(examination) : null;
  return cut === null || !cut.isRead ? null : [cut.xMm, cut.yMm];
}

/** Shapes that others refer to: the outline as a clip, the part in view, and the hatching of unread ground. */
function defineShapes(target: SVGSVGElement, outline: string, scales: PlanScales): void {
  const shapes = select(target).append("defs");
  shapes.append("clipPath").attr("id", "board-outline").append("path").attr("d", outline);
  shapes
    .append("clipPath")
    .attr("id", "plan-view")
    .append("rect")
    .attr("x", scales.margins.left - 1)
    .attr("width", scales.widthPx - scales.margins.left - scales.margins.right + 2)
    .attr("height", scales.heightPx);
  for (const [id, tilt] of [
    ["unread-hatch", 45],
    ["scraper-hatch", -45],
  ] as const) {
    const hatch = shapes
      .append("pattern")
      .attr("id", id)
      .attr("class", id)
      .attr("width", 6)
      .attr("height", 6)
      .attr("patternUnits", "userSpaceOnUse")
      .attr("patternTransform", `rotate(${tilt})`);
    hatch.append("line").attr("y2", 6);
  }
}

function drawUnread(target: Group, examination: Examination, scales: PlanScales): void {
  const rings = unreadRings(examination).map((ring) => closedPath(ring.map(([x, y]) => [scales.x(x), scales.y(y)])));
  target.append("path").attr("d", rings.join("")).attr("fill", "url(#unread-hatch)").attr("fill-rule", "evenodd");
}
