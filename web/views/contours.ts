/**
 * Depth contours and their names on the plan.
 *
 * Contour lines in mm -> paths in px. A name stands in its line where the line runs level and nothing else stands, on a patch of the
 * shading's own colour, as charts break a contour for its figure. Every second line is finer.
 */
import type { Instrument } from "../../server/core/board/instrument.ts";
import { halfWidthMm, type PlaceMm } from "../chart/board.ts";
import { type Clearing, textBox } from "../chart/clearing.ts";
import type { ContourLine } from "../chart/contourLines.ts";
import { contourText } from "../chart/format.ts";
import { wantsLightText } from "../chart/palette.ts";
import { closedPath } from "../chart/path.ts";
import type { PlanScales } from "../chart/scales.ts";
import type { Group } from "./boardPlan.ts";

export function drawContours(target: Group, lines: readonly ContourLine[], scales: PlanScales): void {
  target
    .selectAll("path")
    .data(lines)
    .join("path")
    .attr("class", "contour")
    .attr("data-level-mm", (line) => line.levelMm)
    .attr("d", (line) =>
      line.rings.map((ring) => closedPath(ring.map(([x, y]) => [scales.x(x), scales.y(y)]))).join(""),
    );
}

const sizePx = 13;
/** A ring shorter than this is named by the soundings in it. */
const leastRingPx = 90;
/** Names on the same line stand at least this far apart. */
const apartPx = 260;

export function drawContourNames(
  target: Group,
  lines: readonly ContourLine[],
  instrument: Instrument,
  scales: PlanScales,
  room: Clearing,
  colourAt: (xMm: number, yMm: number) => string,
): void {
  for (const line of [...lines].reverse()) {
    const text = contourText(line.levelMm);
    for (const ring of line.rings) {
      const places = ring.filter((place) => isInView(place, instrument, scales));
      if (lengthPx(places, scales) < leastRingPx) continue;
      const named: number[] = [];
      for (const [xMm, yMm] of levelFirst(places, scales)) {
        const x = scales.x(xMm);
        const y = scales.y(yMm);
        if (named.some((other) => Math.abs(other - x) < apartPx)) continue;
        if (!room.claim(textBox(x, y, text, sizePx, 5))) continue;
        named.push(x);
        const colour = colourAt(xMm, yMm);
        target
          .append("text")
          .attr("class", wantsLightText(colour) ? "contour-name light" : "contour-name dark")
          .attr("x", x)
          .attr("y", y)
          .attr("dy", "0.35em")
          .attr("text-anchor", "middle")
          .attr("stroke", colour)
          .text(text);
      }
    }
  }
}

function isInView([xMm, yMm]: PlaceMm, instrument: Instrument, scales: PlanScales): boolean {
  const [fromMm, toMm] = scales.x.domain() as [number, number];
  const insetMm = scales.y.invert(0) - scales.y.invert(9);
  const isAlong = xMm > fromMm && xMm < toMm && scales.x(xMm) > scales.margins.left + 16;
  return (
    isAlong &&
    scales.x(xMm) < scales.widthPx - scales.margins.right - 16 &&
    Math.abs(yMm) < halfWidthMm(instrument, xMm) - insetMm
  );
}

function lengthPx(places: readonly PlaceMm[], scales: PlanScales): number {
  let total = 0;
  for (let i = 1; i < places.length; i++) {
    const [a, b] = [places[i - 1]!, places[i]!];
    total += Math.hypot(scales.x(b[0]) - scales.x(a[0]), scales.y(b[1]) - scales.y(a[1]));
  }
  return total;
}

/** Places of a ring, those where it runs most nearly along the board first. */
function levelFirst(places: readonly PlaceMm[], scales: PlanScales): readonly PlaceMm[] {
  const tilt = (i: number): number => {
    const before = places[Math.max(0, i - 2)]!;
    const after = places[Math.min(places.length - 1, i + 2)]!;
    const run = Math.abs(scales.x(after[0]) - scales.x(before[0]));
    return Math.abs(scales.y(after[1]) - scales.y(before[1])) / Math.max(run, 0.01);
  };
  return places
    .map((place, i) => ({ place, tilt: tilt(i) }))
    .sort((a, b) => a.tilt - b.tilt)
    .map(({ place }) => place);
}
