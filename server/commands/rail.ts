/** `boardtrue rail`: a survey of something straight -> the rail's error profile (CSV) on standard output. */
import { parseArgs } from "node:util";
import { readingsFileReader } from "../core/readings/readReadingsFile.ts";
import { surveyRail } from "../core/surveyRail.ts";
import { railProfileCsv } from "../reports/railProfileCsv.ts";
import { parsed, settingsFrom } from "./callWords.ts";
import { readFile } from "./givenFile.ts";
import { printHelp } from "./help.ts";
import { print } from "./print.ts";
import { faulty, WrongCall } from "./refusals.ts";

export async function printRailProfile(words: readonly string[]): Promise<void> {
  const { values, positionals } = parsed(() =>
    parseArgs({
      args: [...words],
      allowPositionals: true,
      options: { set: { type: "string", multiple: true }, help: { type: "boolean" } },
    }),
  );
  if (values.help) return printHelp();
  const [surveyPath, ...others] = positionals;
  if (surveyPath === undefined) throw new WrongCall("rail needs the survey: boardtrue rail READINGS.csv");
  if (others.length > 0) throw new WrongCall(`rail takes one file; what is "${others[0]}"?`);
  const reader = readingsFileReader();
  await readFile(surveyPath, reader);
  const surveyed = surveyRail(reader.finish(), settingsFrom(undefined, values.set));
  if (surveyed.outcome === "faulty") throw faulty(surveyed.faults);
  await print([railProfileCsv(surveyed.survey)]);
}
