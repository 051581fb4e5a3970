/**
 * A rail's profile as read and the readings taken over it -> the profile in order of x, or everything that is wrong with it.
 *
 * Beyond its ends a profile is taken as constant, so it must reach nearly as far as the readings do: to within a twentieth
 * of the board's length. There a bow 4u(1 − u) of 0.1 mm goes on by 0.019 mm, less than a careful rail can be trusted for.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Fault } from "../fault.ts";
import { coverageFactor } from "../units.ts";
import { type FaultList, faultList } from "./faultList.ts";
import { inMm } from "./placeOnBoard.ts";
import type { RailProfile } from "./railProfile.ts";
import type { Readings } from "./readings.ts";
import type { RailFile, WrittenRailPoint } from "./readRailFile.ts";

export type CheckedRail =
  | { readonly outcome: "checked"; readonly profile: RailProfile }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] };

/** A rail that is off by more is no rail; the unit must be wrong. */
const greatestErrorMm = 5;
/** How far the readings may reach beyond the profile, as a part of the board's length. */
const farthestBeyond = 0.05;

/** `readings` is null where they have faults of their own: then only the profile itself is looked at. */
export function checkRail(file: RailFile, readings: Readings | null, instrument: Instrument): CheckedRail {
  const faults = faultList("rail", file.faults);
  const points = file.points.toSorted((a, b) => a.xMm - b.xMm || a.row - b.row);
  for (const [i, point] of points.entries()) {
    tellSizes(point, file, faults);
    const before = points[i - 1];
    if (before !== undefined && before.xMm === point.xMm) {
      faults.add(
        { line: point.row, column: file.columns?.x.cell ?? null },
        "rail-x-twice",
        `x ${inMm(point.xMm)} a second time (first on line ${before.row})`,
        "Give one error for each place along the rail; `boardtrue rail` takes the mean of repeats.",
      );
    }
  }
  const [first, last] = [points[0], points.at(-1)];
  if (faults.total() === 0 && (first === undefined || last === undefined || first === last)) {
    faults.add(
      { line: null, column: null },
      "rail-too-few",
      "a profile of one place only",
      "Give the rail's error at places all along it.",
    );
  } else if (faults.total() === 0 && readings !== null && first !== undefined && last !== undefined) {
    tellReach(first.xMm, last.xMm, readings, instrument, faults);
  }
  if (faults.total() > 0) return { outcome: "faulty", faults: faults.finish() };
  return {
    outcome: "checked",
    profile: points.map(({ xMm, errorMm, expandedUMm }) => ({
      xMm,
      errorMm,
      uMm: (expandedUMm ?? 0) / coverageFactor,
    })),
  };
}

function tellSizes({ row, errorMm, expandedUMm }: WrittenRailPoint, { columns }: RailFile, faults: FaultList): void {
  if (Math.abs(errorMm) > greatestErrorMm) {
    faults.add(
      { line: row, column: columns?.error.cell ?? null },
      "rail-error-too-big",
      `an error of ${inMm(errorMm)}, more than ${greatestErrorMm} mm`,
      "Is the unit right? Name it in the heading (`error_mm`, `error_thou`), or correct the number.",
    );
  }
  if (expandedUMm !== null && !(expandedUMm >= 0 && expandedUMm <= greatestErrorMm)) {
    faults.add(
      { line: row, column: columns?.u?.cell ?? null },
      "rail-u-range",
      `an uncertainty of ${inMm(expandedUMm)}`,
      `Write the uncertainty from 0 to ${greatestErrorMm} mm, or leave the cell empty.`,
    );
  }
}

function tellReach(
  firstMm: number,
  lastMm: number,
  readings: Readings,
  instrument: Instrument,
  faults: FaultList,
): void {
  const xs = readings.readings.map(({ xMm }) => xMm);
  const fromMm = xs.reduce((least, x) => Math.min(least, x), Number.POSITIVE_INFINITY);
  const toMm = xs.reduce((most, x) => Math.max(most, x), Number.NEGATIVE_INFINITY);
  const beyondMm = farthestBeyond * instrument.boardLengthMm.value;
  if (fromMm >= firstMm - beyondMm && toMm <= lastMm + beyondMm) return;
  faults.add(
    { line: null, column: null },
    "rail-too-short",
    `a profile from ${inMm(firstMm)} to ${inMm(lastMm)} under readings from ${inMm(fromMm)} to ${inMm(toMm)}`,
    "Survey the rail over the whole length that is read, with x counted as on the board.",
  );
}
