/**
 * Instruments for the tests of the board: resolved from the program's own table, or with figures of their own.
 */

import type { Instrument } from "../../../../server/core/board/instrument.ts";
import { readSettings } from "../../../../server/core/board/readSettings.ts";
import { resolveInstrument } from "../../../../server/core/board/resolveInstrument.ts";
import type { SettingEntry } from "../../../../server/core/board/settings.ts";
import type { Fault } from "../../../../server/core/fault.ts";
import { loadInstrumentTable } from "../../../../server/instrumentTable.ts";

export const table = loadInstrumentTable();

/** Settings as a file would hold them, one a line from line 1. */
export function fileEntries(settings: Readonly<Record<string, string>>): readonly SettingEntry[] {
  return Object.entries(settings).map(([key, value], index) => ({ key, value, where: "readings", line: index + 1 }));
}

export function instrumentFrom(settings: Readonly<Record<string, string>>): Instrument {
  const answer = resolve(settings);
  if (answer.outcome === "faulty") throw new Error(answer.faults.map((fault) => fault.saw).join("; "));
  return answer.instrument;
}

export function faultsFrom(settings: Readonly<Record<string, string>>): readonly Fault[] {
  const answer = resolve(settings);
  return answer.outcome === "faulty" ? answer.faults : [];
}

function resolve(settings: Readonly<Record<string, string>>): ReturnType<typeof resolveInstrument> {
  const read = readSettings(fileEntries(settings));
  return read.outcome === "faulty" ? read : resolveInstrument(table, read.settings);
}
