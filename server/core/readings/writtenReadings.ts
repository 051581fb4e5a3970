/**
 * Where the rows of a readings file are gathered: numbers, line names, and what is wrong with a cell.
 */
import { mostFaultsListed } from "../fault.ts";
import type { FaultList, FaultPlace } from "./faultList.ts";
import { numberInCell } from "./numberInCell.ts";
import { type GrowingReadings, readingColumns } from "./readingColumns.ts";
import type { NamedLine, NumberInMm, Quantity } from "./readingsFile.ts";
import { shownSafely } from "./shownSafely.ts";

export type WrittenReadings = {
  readonly readings: GrowingReadings;
  readonly names: readonly NamedLine[];
  readonly inMm: readonly NumberInMm[];
  readonly faults: FaultList;
  /** The number in a cell; "empty"; or null after telling what is wrong with it. */
  number(cell: string, quantity: Quantity, line: number, column: number): number | "empty" | null;
  /** The index of a line's name, met here first or before. */
  nameIndex(name: string, place: FaultPlace): number;
};

export function writtenReadings(decimalComma: boolean, faults: FaultList): WrittenReadings {
  const names: NamedLine[] = [];
  const indexes = new Map<string, number>();
  const inMm: NumberInMm[] = [];
  const inMmEach = new Map<Quantity, number>();

  /** A list of faults has room for so many of each quantity; more need not be remembered. */
  function remember(number: NumberInMm): void {
    const before = inMmEach.get(number.quantity) ?? 0;
    inMmEach.set(number.quantity, before + 1);
    if (before <= mostFaultsListed) inMm.push(number);
  }

  return {
    readings: withinMeasure(readingColumns(), faults),
    names,
    inMm,
    faults,
    number(cell, quantity, line, column) {
      const found = numberInCell(cell, decimalComma);
      if (found.outcome === "empty") return "empty";
      if (found.outcome === "none") {
        faults.add({ line, column }, found.code, found.saw, found.remedy);
        return null;
      }
      if (found.unit !== null) remember({ quantity, place: { line, column }, saw: shownSafely(cell.trim()) });
      return found.value;
    },
    nameIndex(name, place) {
      const known = indexes.get(name);
      if (known !== undefined) return known;
      names.push({ name, place });
      indexes.set(name, names.length - 1);
      return names.length - 1;
    },
  };
}

/** A probe may give a million readings; what comes after two is told once and not kept. */
const mostReadings = 2_000_000;

function withinMeasure(readings: GrowingReadings, faults: FaultList): GrowingReadings {
  let isTold = false;
  return {
    get count() {
      return readings.count;
    },
    at: (index) => readings.at(index),
    add(reading) {
      if (readings.count < mostReadings) return readings.add(reading);
      if (isTold) return;
      isTold = true;
      faults.add(
        { line: reading.row, column: null },
        "too-many-readings",
        "more than 2,000,000 readings",
        "Thin the scan out: every tenth reading tells as much of a fingerboard.",
      );
    },
  };
}
