/**
 * Which nodes of a wear map were read: those with a reading nearer than one step of the pattern, along or across.
 *
 * Examination -> a question that can be asked of any place on its board. Between and beyond its readings a map is interpolated, or
 * fades out; where nobody read, nobody knows what wore. Where an examination tells no readings (they were left out of what was
 * kept) every place counts as read. Lengths in mm.
 */
import { Delaunay } from "d3";
import type { Examination } from "../examination.ts";

export function readNodes({ points, readings, instrument }: Examination): (xMm: number, yMm: number) => boolean {
  if (points.length === 0) return () => true;
  const lengthMm = instrument.boardLengthMm.value;
  const widthMm = (instrument.widthNutMm.value + instrument.widthEndMm.value) / 2;
  // One step along and across; a file without a pattern (a scan) has far more readings than these.
  const alongMm = lengthMm / Math.max(1, readings.crosslines === 0 ? usualCrosslines : readings.crosslines);
  const acrossMm = widthMm / Math.max(1, readings.lines === 0 ? usualLines : readings.lines);
  const nearest = Delaunay.from(
    points,
    ({ xMm }) => xMm / alongMm,
    ({ yMm }) => yMm / acrossMm,
  );
  let last = 0;
  return (xMm, yMm) => {
    last = nearest.find(xMm / alongMm, yMm / acrossMm, last);
    const { xMm: readXMm, yMm: readYMm } = points[last];
    return Math.hypot((readXMm - xMm) / alongMm, (readYMm - yMm) / acrossMm) <= 1;
  };
}

const usualCrosslines = 11;
const usualLines = 7;
