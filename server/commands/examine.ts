/** `boardtrue examine`: what a board needs, from files to standard output, in words or as JSON. */
import { dirname, resolve } from "node:path";
import { parseArgs } from "node:util";
import { plainKey } from "../core/board/readSettings.ts";
import type { SettingEntry } from "../core/board/settings.ts";
import { examinerFor } from "../examiner.ts";
import { loadInstrumentTable } from "../instrumentTable.ts";
import { examinationAsJson } from "../reports/examinationAsJson.ts";
import { plainText } from "../reports/plainText.ts";
import { withPoints } from "../reports/toldPoints.ts";
import { version } from "../version.ts";
import { parsed, settingsFrom } from "./callWords.ts";
import { readFile } from "./givenFile.ts";
import { printHelp } from "./help.ts";
import { print } from "./print.ts";
import { faulty, WrongCall } from "./refusals.ts";

export async function examineFiles(words: readonly string[]): Promise<void> {
  const { values, positionals } = parsed(() =>
    parseArgs({
      args: [...words],
      allowPositionals: true,
      options: {
        instrument: { type: "string" },
        thickness: { type: "string" },
        set: { type: "string", multiple: true },
        json: { type: "boolean" },
        "no-points": { type: "boolean" },
        help: { type: "boolean" },
      },
    }),
  );
  if (values.help) return printHelp();
  const [readingsPath, ...others] = positionals;
  if (readingsPath === undefined) throw new WrongCall("examine needs the readings: boardtrue examine READINGS.csv");
  if (others.length > 0) throw new WrongCall(`examine takes one file of readings; what is "${others[0]}"?`);
  if (values["no-points"] && !values.json) throw new WrongCall("--no-points goes with --json.");
  if (readingsPath === "-" && values.thickness === "-") {
    throw new WrongCall("Only one of the two files can come from standard input.");
  }

  const settings = settingsFrom(values.instrument, values.set);
  const examining = examinerFor(loadInstrumentTable(), version)();
  await readFile(readingsPath, examining.readings);
  if (values.thickness !== undefined) await readFile(values.thickness, examining.openThickness());
  const railPath = railPathFrom(settings, examining.settingsInReadings(), readingsPath);
  if (railPath !== null) await readFile(railPath, examining.openRail());
  const examined = examining.finish(settings);
  if (examined.outcome === "faulty") throw faulty(examined.faults);
  const { examination } = examined;
  await print(
    values.json
      ? examinationAsJson(withPoints(examination, values["no-points"] ? "none" : "all"))
      : [plainText(examination)],
  );
}

/**
 * The rail's profile that a setting names: on the command line as seen from the working folder, in a readings file as seen from
 * where that file lies.
 */
function railPathFrom(
  settings: readonly SettingEntry[],
  inReadings: readonly SettingEntry[],
  readingsPath: string,
): string | null {
  const named = (entries: readonly SettingEntry[]) =>
    entries.findLast(({ key, value }) => plainKey(key) === "rail_error" && value.trim() !== "")?.value.trim();
  const given = named(settings);
  if (given !== undefined) return given;
  const written = named(inReadings);
  if (written === undefined) return null;
  return readingsPath === "-" ? written : resolve(dirname(readingsPath), written);
}
