/**
 * A fault of a setting, placed where the setting was written: its line of the file, or the command line or form.
 */
import type { Fault } from "../fault.ts";
import type { SettingEntry } from "./settings.ts";

/** `entry` is undefined where nothing was written: something is missing. */
export function settingFault(entry: SettingEntry | undefined, code: string, saw: string, remedy: string): Fault {
  return { where: entry?.where ?? "settings", line: entry?.line ?? null, column: null, code, saw, remedy };
}
