/**
 * Ground without readings: where the chart must look unread.
 *
 * Examination -> rings, in mm, round every place further from a reading than the readings usually stand from each other. A place is
 * measured in intervals: along, one from crossline to crossline (so a grid that is wider towards the bridge, as benches take it,
 * is not called unread); across, one from line to line. Gaps far wider than usual count as the several intervals that they are.
 */
import { Delaunay, median, pairs, scaleLinear } from "d3";
import type { Examination } from "../../server/core/examination.ts";
import { halfWidthMm } from "./board.ts";
import { type ContourLine, contourLines } from "./contourLines.ts";
import type { Field } from "./field.ts";

/** Intervals to the nearest reading beyond which a place is unread: a missing reading is not, two side by side are. */
const reach = 1.15;
/** Readings closer than this along the board belong to one crossline, mm. */
const togetherMm = 8;
/** A gap of more usual intervals than this was not meant: it is ground left out. */
const meantGap = 2.5;

/** Rings about the ground without readings, mm. */
export function unreadRings(examination: Examination): ContourLine["rings"] {
  return contourLines(intervalsField(examination), [reach])[0]?.rings ?? [];
}

/** Intervals to the nearest reading, over the board and a cell beyond. */
function intervalsField(examination: Examination): Field {
  const { instrument, points, readings } = examination;
  const lengthMm = instrument.boardLengthMm.value;
  const along = intervalsAlong(examination);
  const lineMm = (xMm: number) =>
    Math.max(2, (2 * halfWidthMm(instrument, Math.min(lengthMm, Math.max(0, xMm)))) / Math.max(1, readings.lines - 1));
  const known = Delaunay.from(thinned(points.map((p): [number, number] => [along(p.xMm), p.yMm / lineMm(p.xMm)])));
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
      const x = along(xMm);
      const y = (y0Mm + row * stepYMm) / lineMm(xMm);
      nearest = known.find(x, y, nearest);
      depthsMm[row * columns + column] = Math.hypot(known.points[2 * nearest]! - x, known.points[2 * nearest + 1]! - y);
    }
  }
  return { x0Mm, y0Mm, stepXMm, stepYMm, columns, rows, depthsMm };
}

/** x in mm -> crosslines passed. */
function intervalsAlong(examination: Examination): (xMm: number) => number {
  const crosslinesMm: number[] = [];
  for (const xMm of [...new Set(examination.points.map((p) => Math.round(p.givenXMm)))].sort((a, b) => a - b)) {
    if (crosslinesMm.length === 0 || xMm - crosslinesMm.at(-1)! >= togetherMm) crosslinesMm.push(xMm);
  }
  const gaps = pairs(crosslinesMm, (a, b) => b - a);
  const usualMm = median(gaps) ?? examination.instrument.boardLengthMm.value / 10;
  const passed = [0];
  for (const gap of gaps) passed.push(passed.at(-1)! + (gap <= meantGap * usualMm ? 1 : gap / usualMm));
  const first = crosslinesMm[0] ?? 0;
  const last = crosslinesMm.at(-1) ?? 0;
  const between = scaleLinear(crosslinesMm, passed);
  return (xMm) => {
    if (xMm <= first) return (xMm - first) / usualMm;
    if (xMm >= last) return passed.at(-1)! + (xMm - last) / usualMm;
    return between(xMm);
  };
}

/** One place per twentieth of an interval is enough to tell read from unread, however many readings there are. */
function thinned(places: readonly (readonly [number, number])[]): [number, number][] {
  const kept = new Map<string, [number, number]>();
  for (const [x, y] of places) kept.set(`${Math.round(x * 20)} ${Math.round(y * 20)}`, [x, y]);
  return [...kept.values()];
}
