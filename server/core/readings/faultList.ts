/**
 * Faults of one file, gathered as they are met, so that everything wrong is told together.
 *
 * At most fifty are listed; then one more counts the rest. A file of a million bad rows costs no memory.
 */
import { countingCode, countingFault, type Fault, mostFaultsListed } from "../fault.ts";

export type FaultPlace = { readonly line: number | null; readonly column: number | null };

export type FaultList = {
  add(place: FaultPlace, code: string, saw: string, remedy: string): void;
  /** Faults that are known without being spelled out. */
  count(more: number): void;
  total(): number;
  /** The list with its last word, in the order of the file. */
  finish(): readonly Fault[];
};

/** Begins with `earlier`, a finished list (its counting fault is taken apart again). */
export function faultList(where: Fault["where"], earlier: readonly Fault[] = []): FaultList {
  const listed = earlier.filter((fault) => fault.code !== countingCode);
  let total = listed.length + earlier.reduce((sum, fault) => sum + countedBy(fault), 0);
  let room = mostFaultsListed;

  return {
    add(place, code, saw, remedy) {
      total += 1;
      if (room === 0) return;
      room -= 1;
      listed.push({ where, line: place.line, column: place.column, code, saw, remedy });
    },
    count(more) {
      total += more;
    },
    total: () => total,
    finish() {
      const first = listed.toSorted(byPlace).slice(0, mostFaultsListed);
      return total === first.length ? first : [...first, countingFault(where, total - first.length)];
    },
  };
}

function countedBy(fault: Fault): number {
  return fault.code === countingCode ? Number.parseInt(fault.saw, 10) : 0;
}

function byPlace(a: Fault, b: Fault): number {
  return (a.line ?? 0) - (b.line ?? 0) || (a.column ?? 0) - (b.column ?? 0);
}
