/**
 * The bare plan: outline, strings, stopped positions, as thin as a drawing office would rule them.
 *
 * Draws into the groups it is given; px from the scales. Nut left, treble on top.
 */
import type { Selection } from "d3";
import type { Instrument } from "../../server/core/board/instrument.ts";
import { halfWidthMm, outlineMm, stoppedNoteMm, stringYMm } from "../chart/board.ts";
import { closedPath } from "../chart/path.ts";
import type { PlanScales } from "../chart/scales.ts";

export type Group = Selection<SVGGElement, unknown, null, undefined>;

export const outlinePath = (instrument: Instrument, scales: PlanScales): string =>
  closedPath(outlineMm(instrument).map(([x, y]) => [scales.x(x), scales.y(y)]));

export function drawStrings(target: Group, instrument: Instrument, scales: PlanScales): void {
  const lengthMm = instrument.boardLengthMm.value;
  target
    .selectAll("line.string")
    .data(instrument.strings)
    .join("line")
    .attr("class", "string")
    .attr("data-string", (name) => name)
    .attr("x1", scales.x(0))
    .attr("x2", scales.x(lengthMm))
    .attr("y1", (_, i) => scales.y(stringYMm(instrument, i, 0)))
    .attr("y2", (_, i) => scales.y(stringYMm(instrument, i, lengthMm)));
}

/** String names at the left, where each path enters the drawing. */
export function drawStringNames(target: Group, instrument: Instrument, scales: PlanScales): void {
  const fromMm = scales.x.domain()[0]!;
  target
    .selectAll("text.string-name")
    .data(instrument.strings)
    .join("text")
    .attr("class", "string-name")
    .attr("x", scales.margins.left - 14)
    .attr("y", (_, i) => scales.y(stringYMm(instrument, i, fromMm)))
    .attr("dy", "0.35em")
    .attr("text-anchor", "end")
    .text((name) => name);
}

/** Room under the plan for the names of the positions, px. */
export const positionNamesPx = 24;

/** Where the hand stops: a hairline across the board at each position, named under it; the note an octave up too. */
export function drawPositions(target: Group, instrument: Instrument, scales: PlanScales): void {
  const named = instrument.positions.map(({ name, fromSemitone }) => ({
    name: fromSemitone === 12 ? `${name} (octave up)` : name,
    xMm: stoppedNoteMm(instrument, fromSemitone),
  }));
  const octave = { name: "(octave up)", xMm: stoppedNoteMm(instrument, 12) };
  const all = instrument.positions.some((position) => position.fromSemitone === 12) ? named : [...named, octave];
  const [fromMm, toMm] = scales.x.domain() as [number, number];
  const baseline = scales.heightPx - 8;
  const besideBoardPx = scales.widthPx - scales.margins.right + 16;
  target.append("text").attr("class", "note").attr("x", besideBoardPx).attr("y", baseline).text("position");
  let freeFromPx = Number.NEGATIVE_INFINITY;
  for (const position of all.sort((a, b) => a.xMm - b.xMm)) {
    if (position.xMm > instrument.boardLengthMm.value || position.xMm < fromMm || position.xMm > toMm) continue;
    const x = scales.x(position.xMm);
    const half = halfWidthMm(instrument, position.xMm);
    const width = position.name.length * 6.6;
    const hasRoom = x - width / 2 > freeFromPx && x + width / 2 < besideBoardPx;
    target
      .append("line")
      .attr("class", "stop")
      .attr("x1", x)
      .attr("x2", x)
      .attr("y1", scales.y(half))
      .attr("y2", hasRoom ? scales.heightPx - positionNamesPx : scales.y(-half));
    if (!hasRoom) continue;
    target
      .append("text")
      .attr("class", "note")
      .attr("x", x)
      .attr("y", baseline)
      .attr("text-anchor", "middle")
      .text(position.name);
    freeFromPx = x + width / 2 + 5;
  }
}
