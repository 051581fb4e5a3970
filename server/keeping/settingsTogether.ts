/**
 * What form, readings file and the instrument's record say, brought together: the form wins over the file, and the file over the record.
 *
 * In: the settings of each, the table. Out: the entries to examine with, beside those of the file; or a fault where form or file speak of
 * another instrument than the record: readings of the wrong one would spoil its history for good.
 */
import type { InstrumentTable } from "../core/board/instrumentTable.ts";
import { plainKey } from "../core/board/readSettings.ts";
import { settingFault } from "../core/board/settingFault.ts";
import type { SettingEntry } from "../core/board/settings.ts";
import type { Fault } from "../core/fault.ts";
import { shownSafely } from "../core/readings/shownSafely.ts";
import type { InstrumentGiven } from "../records/records.ts";
import { kindAndSize } from "./kindAndSize.ts";
import { recordSettings } from "./recordSettings.ts";

export type SettingsTogether = {
  readonly entries: readonly SettingEntry[];
  /** Null where all three speak of the same instrument. */
  readonly fault: Fault | null;
};

export function settingsTogether(
  inFile: readonly SettingEntry[],
  inForm: readonly SettingEntry[],
  record: InstrumentGiven,
  table: InstrumentTable,
): SettingsTogether {
  const said = [...inFile, ...inForm].filter(({ value }) => value.trim() !== "");
  const saidKeys = new Set(said.map(({ key }) => plainKey(key)));
  const unsaid = recordSettings(record).filter(({ key }) => !saidKeys.has(key));
  const ofInstrument = said.findLast(({ key }) => plainKey(key) === "instrument");
  if (ofInstrument === undefined) return { entries: [...unsaid, ...inForm], fault: null };

  const [there, here] = [kindAndSize(table, record.instrument, record.strings), kindAndSize(table, ofInstrument.value)];
  // What is no instrument at all is told by the examination.
  if (there.outcome === "unknown" || here.outcome === "unknown") return { entries: inForm, fault: null };
  const isOther = here.kind !== there.kind || (here.isSizeSaid && here.size !== there.size);
  if (isOther)
    return { entries: inForm, fault: anotherInstrument(ofInstrument, record, `${there.kind} ${there.size}`) };
  if (here.isSizeSaid) return { entries: [...unsaid, ...inForm], fault: null };
  // "cello" contradicts nobody: the record knows which size.
  return { entries: [...unsaid, ...inForm, { ...ofInstrument, value: record.instrument }], fault: null };
}

function anotherInstrument(entry: SettingEntry, record: InstrumentGiven, isIn: string): Fault {
  return settingFault(
    entry,
    "another-instrument",
    `this says \`instrument: ${entry.value.trim()}\`, but ${shownSafely(record.number)} is recorded as ${isIn}`,
    "Give the visit to the instrument that was read, or mend what is said here; if the record is wrong, correct the record first.",
  );
}
