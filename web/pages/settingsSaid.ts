/**
 * Settings said on the page: in words, what of them goes on to the next board, and what holds now with where it comes from.
 *
 * What is said on the page wins over the file. Keys are those of the readings file; values are text, unparsed: the server checks them.
 */
import type { Examination } from "../../server/core/examination.ts";
import { settingText } from "../chart/format.ts";
import type { FileSettings } from "./fileSettings.ts";
import { type SettingEntry, settingEntries } from "./settingEntries.ts";

export type Said = Readonly<Record<string, string>>;

/** "tip radius 3 mm": one thing said, with its unit. */
export function saidInWords([key, value]: readonly [string, string]): string {
  const entry = settingEntries.find((one) => one.key === key);
  if (entry === undefined) return `${key.replaceAll("_", " ")} ${value}`;
  const name = entry.name.charAt(0).toLowerCase() + entry.name.slice(1);
  return `${name} ${entry.words[value] ?? (entry.isLength ? `${value} mm` : value)}`;
}

/** All that was said, in one line: "2 settings changed by you: tip radius 3 mm, build solid"; empty where nothing was. */
export function changedByYou(said: Said): string {
  const changes = Object.entries(said).map(saidInWords);
  if (changes.length === 0) return "";
  return `${changes.length === 1 ? "1 setting" : `${changes.length} settings`} changed by you: ${changes.join(", ")}`;
}

/** The workshop's gauge stays the same from board to board; everything else is about one board. */
const ofTheGauge: readonly string[] = [
  ...["unit", "place_unit", "reads", "tip_radius", "resolution", "gauge_error"],
  "calliper_error",
];

/** What goes on to a new board, and what is let go. */
export function saidForNewBoard(said: Said): { readonly kept: Said; readonly letGo: Said } {
  const entries = Object.entries(said);
  const isKept = ([key]: readonly [string, string]) => ofTheGauge.includes(key);
  return {
    kept: Object.fromEntries(entries.filter(isKept)),
    letGo: Object.fromEntries(entries.filter((entry) => !isKept(entry))),
  };
}

/** What holds now for a setting, and where it comes from. */
export function inForce(
  entry: SettingEntry,
  examination: Examination | null,
  file: FileSettings,
  said: Said,
): { readonly value: string; readonly from: string } {
  const worded = (value: string) => entry.words[value] ?? (entry.isLength && /\d/.test(value) ? `${value} mm` : value);
  const byYou = said[entry.key];
  if (byYou !== undefined) return { value: worded(byYou), from: "you, here" };
  if (entry.figure !== null) {
    if (examination === null) return { value: "as the table of instruments has it", from: "no board examined yet" };
    const { value, origin } = examination.instrument[entry.figure];
    return { value: worded(settingText(value)), from: origin };
  }
  const inFile = file.get(entry.key);
  if (inFile !== undefined) return { value: worded(inFile.value), from: `the file, line ${inFile.line}` };
  return { value: worded(entry.otherwise), from: "the default" };
}
