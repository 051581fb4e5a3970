/**
 * Text of a readings file -> checked readings or faults, the way the examination takes it; a violin unless the file says otherwise.
 */
import type { Instrument } from "../../../../server/core/board/instrument.ts";
import { readSettings } from "../../../../server/core/board/readSettings.ts";
import { resolveInstrument } from "../../../../server/core/board/resolveInstrument.ts";
import type { SettingEntry, Settings } from "../../../../server/core/board/settings.ts";
import { faultInWords } from "../../../../server/core/fault.ts";
import { type CheckedReadings, checkReadings } from "../../../../server/core/readings/checkReadings.ts";
import { type ReadingsFile, readReadingsFile } from "../../../../server/core/readings/readReadingsFile.ts";
import { loadInstrumentTable } from "../../../../server/instrumentTable.ts";

const table = loadInstrumentTable();

export function instrumentOf(settings: Settings): Instrument {
  const resolved = resolveInstrument(table, settings);
  if (resolved.outcome === "faulty") throw new Error(resolved.faults.map(faultInWords).join("\n"));
  return resolved.instrument;
}

export function settingsOf(entries: readonly SettingEntry[]): Settings {
  const violin: SettingEntry = { key: "instrument", value: "violin", where: "settings", line: null };
  const read = readSettings([violin, ...entries]);
  if (read.outcome === "faulty") throw new Error(read.faults.map(faultInWords).join("\n"));
  return read.settings;
}

export function checkFile(file: ReadingsFile): CheckedReadings {
  const settings = settingsOf(file.entries);
  return checkReadings(file, instrumentOf(settings), settings.gauge);
}

export function readingsFromText(content: string | Uint8Array): CheckedReadings {
  return checkFile(readReadingsFile(content));
}
