/**
 * What an instrument's record says, as settings: used for whatever neither the form nor the readings file says.
 *
 * In: the record. Out: settings as key and text, and as entries that name no line. "unknown" builds and instruments of no
 * special value say nothing, so that the file may.
 */
import type { SettingEntry } from "../core/board/settings.ts";
import type { InstrumentGiven, SettingTexts } from "../records/records.ts";
import { settingsFromOutside } from "../settingsFromOutside.ts";

export function recordSettings(record: Omit<InstrumentGiven, "number" | "label">): readonly SettingEntry[] {
  const texts: SettingTexts = {
    instrument: record.instrument,
    ...(record.strings === null ? {} : { strings: record.strings }),
    ...(record.build === "unknown" ? {} : { build: record.build }),
    ...(record.valuable ? { valuable: "yes" } : {}),
    ...record.dimensions,
  };
  return settingsFromOutside(Object.entries(texts));
}
