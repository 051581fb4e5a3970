/**
 * Ground without readings: where the chart must look unread.
 *
 * Examination -> rings round every place further from a reading than the usual pitch of readings (a crossline interval along, a line
 * interval across). There the chart is hatched: interpolation is a guess. A field holds the distance in pitches; the rings are its contour 1.
 */
import { Delaunay, median, pairs } from "d3";
import type { Examination } from "../../server/core/examination.ts";
import { halfWidthMm } from "./board.ts";
import { type ContourLine, contourLines } from "./contourLines.ts";
import type { Field } from "./field.ts";

const reach = 1.15;

/** Rings about the ground without readings, mm. */
export function unreadRings(examination: Examination): ContourLine["rings"] {
  return contourLines(unreadField(examination), [1])[0]?.rings ?? [];
}

function unreadField(examination: Examination): Field {
  const { instrument, points, readings } = examination;
  const lengthMm = instrument.boardLengthMm.value;
  const alongMm = reach * crosslinePitchMm(examination);
  const acrossMm = (xMm: number) =>
    Math.max(
      2,
      (reach * 2 * halfWidthMm(instrument, Math.min(lengthMm, Math.max(0, xMm)))) / Math.max(1, readings.lines - 1),
    );
  const known = Delaunay.from(thinned(points.map((p): [number, number] => [p.xMm / alongMm, p.yMm / acrossMm(p.xMm)])));
  const stepXMm = Math.max(2, lengthMm / 200);
  const stepYMm = Math.max(0.75, instrument.widthEndMm.value / 60);
  const columns = Math.ceil(lengthMm / stepXMm) + 3;
  const rows = Math.ceil(instrument.widthEndMm.value / stepYMm) + 3;
  const x0Mm = -stepXMm;
  const y0Mm = -instrument.widthEndMm.value / 2 - stepYMm;
  const depthsMm = new Float64Array(columns * rows);
  let nearest = 0;
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const xMm = x0Mm + column * stepXMm;
      const x = xMm / alongMm;
      const y = (y0Mm + row * stepYMm) / acrossMm(xMm);
      nearest = known.find(x, y, nearest);
      depthsMm[row * columns + column] = Math.hypot(known.points[2 * nearest]! - x, known.points[2 * nearest + 1]! - y);
    }
  }
  return { x0Mm, y0Mm, stepXMm, stepYMm, columns, rows, depthsMm };
}

function crosslinePitchMm(examination: Examination): number {
  const places = [...new Set(examination.points.map((p) => Math.round(p.givenXMm)))].sort((a, b) => a - b);
  const gaps = pairs(places, (a, b) => b - a);
  return Math.max(8, median(gaps) ?? examination.instrument.boardLengthMm.value / 10);
}

/** One place per twentieth of a pitch is enough to tell read from unread, however many readings there are. */
function thinned(places: readonly (readonly [number, number])[]): [number, number][] {
  const kept = new Map<string, [number, number]>();
  for (const [x, y] of places) kept.set(`${Math.round(x * 20)} ${Math.round(y * 20)}`, [x, y]);
  return [...kept.values()];
}
