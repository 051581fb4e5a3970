/** The words of a call, taken apart: options as Node's parseArgs reads them, and settings as key=value. */
import type { SettingEntry } from "../core/board/settings.ts";
import { settingsFromOutside } from "../settingsFromOutside.ts";
import { WrongCall } from "./refusals.ts";

/** parseArgs throws in its own words on an unknown option or a missing value: a wrong call. */
export function parsed<T>(parse: () => T): T {
  try {
    return parse();
  } catch (error) {
    throw new WrongCall(error instanceof Error ? error.message : String(error));
  }
}

/** From `--instrument` and every `--set`, a later one winning over an earlier. */
export function settingsFrom(instrument: string | undefined, pairs: readonly string[] = []): readonly SettingEntry[] {
  const chosen: [string, string][] = instrument === undefined ? [] : [["instrument", instrument]];
  return settingsFromOutside([...chosen, ...pairs.map(keyAndText)]);
}

function keyAndText(pair: string): [string, string] {
  const equals = pair.indexOf("=");
  if (equals < 1) throw new WrongCall(`--set ${pair}: write it as key=value, for example --set tip_radius=1.5`);
  return [pair.slice(0, equals).trim(), pair.slice(equals + 1).trim()];
}

/** The one file that a task is about; `missing` says what to do where none is named. */
export function onePathOf([path, ...others]: readonly string[], missing: string): string {
  if (path === undefined) throw new WrongCall(missing);
  if (others.length > 0) throw new WrongCall(`One file at a time; what is "${others[0]}"?`);
  return path;
}
