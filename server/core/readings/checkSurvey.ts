/**
 * A survey of a straightedge or a glass as read, list or grid, with or without places across -> readings in mm, or every fault.
 *
 * It tells a rail only if enough places along were read, and every set-up read the same ones.
 */
import type { Gauge } from "../board/settings.ts";
import type { Fault } from "../fault.ts";
import { settledUnits, tellSlips } from "./checkReadings.ts";
import { type FaultList, faultList } from "./faultList.ts";
import { inMm } from "./placeOnBoard.ts";
import type { Reading, Readings } from "./readings.ts";
import type { ReadingsFile } from "./readingsFile.ts";
import { shownSafely } from "./shownSafely.ts";
import { typingSlips } from "./typingSlips.ts";

export type CheckedSurvey =
  | { readonly outcome: "checked"; readonly readings: Readings }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] };

const fewestPlaces = 5;
/** No straightedge and no rail is off by as much. */
const greatestHeightMm = 200;
const greatestXMm = 3_000;

export function checkSurvey(file: ReadingsFile, gauge: Gauge): CheckedSurvey {
  const faults = faultList("readings", file.faults);
  if (file.layout === "gaps") tellGaps(file, faults);
  const units = settledUnits(file, gauge, faults);
  const sign = gauge.reads === "depth" ? -1 : 1;
  const readings: Reading[] = [];
  for (let i = 0; i < file.readings.count; i++) {
    const { row, column, x, y, height, mark, setup } = file.readings.at(i);
    const [xMm, gaugeMm] = [x * units.xMm, sign * height * units.heightMm + 0];
    if (Math.abs(gaugeMm) > greatestHeightMm)
      tellUnit("height", gaugeMm, greatestHeightMm, { line: row, column }, faults);
    if (Math.abs(xMm) > greatestXMm) tellUnit("x", xMm, greatestXMm, { line: row, column: null }, faults);
    readings.push({ row, xMm, yMm: Number.isNaN(y) ? 0 : y * units.yMm, gaugeMm, line: null, mark, setup });
  }
  const checked: Readings = { stage: "checked", readings, setups: file.setups.length > 0 ? file.setups : [""] };
  if (faults.total() === 0) tellSlips(typingSlips(readings), file, faults);
  if (faults.total() === 0) tellPlaces(checked, faults);
  return faults.total() > 0
    ? { outcome: "faulty", faults: faults.finish() }
    : { outcome: "checked", readings: checked };
}

function tellGaps(file: ReadingsFile, faults: FaultList): void {
  faults.add(
    { line: file.columns.x?.place.line ?? null, column: null },
    "rail-of-gaps",
    "a file of gaps",
    "Give the heights that the gauge showed over the straightedge: a list with the columns x, height.",
  );
}

function tellUnit(
  what: string,
  lengthMm: number,
  mostMm: number,
  place: { readonly line: number; readonly column: number | null },
  faults: FaultList,
): void {
  faults.add(
    place,
    "rail-length-too-big",
    `${what} ${inMm(lengthMm)}, more than ${mostMm} mm`,
    "Is the unit right? Set `# unit: 0.01mm`, `in` or `thou` above the header (`place_unit` for x), or correct the number.",
  );
}

function tellPlaces({ readings, setups }: Readings, faults: FaultList): void {
  const all = new Set(readings.map(({ xMm }) => xMm));
  if (all.size < fewestPlaces) {
    faults.add(
      { line: null, column: null },
      "rail-too-few",
      `${all.size} ${all.size === 1 ? "place" : "places"} along the rail`,
      `Read at least ${fewestPlaces} places, better 12 or more, over the whole length that boards are read.`,
    );
  }
  for (const [setup, label] of setups.entries()) {
    const read = new Set(readings.filter((reading) => reading.setup === setup).map(({ xMm }) => xMm));
    const missing = [...all].filter((xMm) => !read.has(xMm)).sort((a, b) => a - b);
    const [firstMm] = missing;
    if (firstMm === undefined) continue;
    faults.add(
      { line: null, column: null },
      "rail-places-differ",
      `no reading at x ${inMm(firstMm)} in the set-up ${shownSafely(label)}`,
      "Read every set-up at the same places: only then what belongs to the straightedge falls out.",
    );
  }
}
