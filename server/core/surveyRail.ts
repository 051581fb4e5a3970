/**
 * The survey of a rail, start to end: a file of heights over something straight -> the rail's error profile, or every fault.
 *
 * The settings of the gauge count (`unit`, `reads`, `resolution`, …); of the instrument nothing is asked. Pure.
 */
import { readSettings } from "./board/readSettings.ts";
import type { SettingEntry } from "./board/settings.ts";
import { type RailSurvey, railSurvey } from "./compensation/railSurvey.ts";
import type { Fault } from "./fault.ts";
import { checkSurvey } from "./readings/checkSurvey.ts";
import type { ReadingsFile } from "./readings/readReadingsFile.ts";

export type Surveyed =
  | { readonly outcome: "surveyed"; readonly survey: RailSurvey }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] };

/** `settings` come from outside and win over the file's. */
export function surveyRail(file: ReadingsFile, settings: readonly SettingEntry[]): Surveyed {
  const read = readSettings([...file.entries, ...settings]);
  if (read.outcome === "faulty") return { outcome: "faulty", faults: [...read.faults, ...file.faults] };
  const checked = checkSurvey(file, read.settings.gauge);
  if (checked.outcome === "faulty") return checked;
  return { outcome: "surveyed", survey: railSurvey(checked.readings, read.settings.gauge) };
}
