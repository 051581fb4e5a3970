/**
 * The command: the same examination as the server's, from files to standard output.
 *
 * Exit 0 with an answer, 1 with faults in what was given (on standard error, one a line), 2 for a wrong call. Nothing
 * but the answer on standard output. Files are read chunk by chunk; `-` is standard input.
 */
import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { dirname, resolve } from "node:path";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { parseArgs } from "node:util";
import { emptyGrid, gridReadings } from "./core/board/emptyGrid.ts";
import { plainKey, readSettings } from "./core/board/readSettings.ts";
import { resolveInstrument } from "./core/board/resolveInstrument.ts";
import type { SettingEntry } from "./core/board/settings.ts";
import { settingTable } from "./core/board/settingTable.ts";
import { type Fault, faultInWords } from "./core/fault.ts";
import { readingsFileReader } from "./core/readings/readReadingsFile.ts";
import { surveyRail } from "./core/surveyRail.ts";
import { type ChunkTaker, examinerFor } from "./examiner.ts";
import { loadInstrumentTable } from "./instrumentTable.ts";
import { examinationAsJson } from "./reports/examinationAsJson.ts";
import { plainText } from "./reports/plainText.ts";
import { railProfileCsv } from "./reports/railProfileCsv.ts";
import { settingsHelp } from "./reports/settingsHelp.ts";
import { withPoints } from "./reports/toldPoints.ts";
import { settingsFromOutside } from "./settingsFromOutside.ts";
import { version } from "./version.ts";

const help = `\
boardtrue examine READINGS.csv --instrument cello [--thickness THICKNESS.csv]
                  [--set key=value …] [--json [--no-points]]
    What the board needs, from height readings on a grid; or a quick look,
    from fifteen of them or from gaps under a straightedge or a template.
    READINGS.csv or THICKNESS.csv may be - for standard input.
    --set rail_error=RAIL.csv takes the rail's own error off the readings.

boardtrue grid --instrument cello [--readings 77] [--set key=value …]
    An empty grid to fill in at the bench (CSV).

boardtrue rail READINGS.csv [--set key=value …]
    The rail's error profile (CSV), from a survey of a straightedge or a glass:
    columns x and height, one pass or more. A bar with parallel edges, read
    again turned over (its other edge up) as a second setup, may be bowed.

boardtrue serve
    The page, at http://127.0.0.1:4870/ (another port: set PORT).

boardtrue help
boardtrue help settings
    Every setting that a file or --set may hold.
boardtrue version

Exit status: 0 an answer, 1 faults in what was given, 2 a wrong call.
`;

/** The call itself is wrong: exit 2. */
class WrongCall extends Error {}
/** What the call names can't be read or has faults: exit 1; one message a line. */
class Faulty extends Error {}

// A reader that has read enough (as `head` does) closes the pipe; each task that prints learns of it by itself.
process.stdout.on("error", () => undefined);
process.exitCode = await exitStatusOf(process.argv.slice(2));

async function exitStatusOf(words: readonly string[]): Promise<number> {
  try {
    await run(words);
    return 0;
  } catch (error) {
    // Whoever read the answer has read enough (as `head` does): nothing to report.
    if (codeOf(error) === "EPIPE") return 0;
    if (error instanceof WrongCall) {
      process.stderr.write(`${error.message}\nSee: boardtrue help\n`);
      return 2;
    }
    if (error instanceof Faulty) {
      process.stderr.write(`${error.message}\n`);
      return 1;
    }
    throw error;
  }
}

async function run([task, ...words]: readonly string[]): Promise<void> {
  switch (task) {
    case "examine":
      return examineFiles(words);
    case "grid":
      return printEmptyGrid(words);
    case "serve":
      if (words.length > 0) throw new WrongCall("serve takes nothing more; the port comes from PORT.");
      return startServing();
    case "help":
    case "--help":
    case "-h":
      return print([words[0] === "settings" ? settingsHelp(settingTable) : help]);
    case "version":
    case "--version":
      return print([`${version}\n`]);
    case "rail":
      return printRailProfile(words);
    case undefined:
      throw new WrongCall("Say what to do: examine, grid, rail, serve, help or version.");
    default:
      throw new WrongCall(`"${task}" is not known: examine, grid, rail, serve, help or version.`);
  }
}

async function examineFiles(words: readonly string[]): Promise<void> {
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
  if (values.help) return print([help]);
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

async function printRailProfile(words: readonly string[]): Promise<void> {
  const { values, positionals } = parsed(() =>
    parseArgs({
      args: [...words],
      allowPositionals: true,
      options: { set: { type: "string", multiple: true }, help: { type: "boolean" } },
    }),
  );
  if (values.help) return print([help]);
  const [surveyPath, ...others] = positionals;
  if (surveyPath === undefined) throw new WrongCall("rail needs the survey: boardtrue rail READINGS.csv");
  if (others.length > 0) throw new WrongCall(`rail takes one file; what is "${others[0]}"?`);
  const reader = readingsFileReader();
  await readFile(surveyPath, reader);
  const surveyed = surveyRail(reader.finish(), settingsFrom(undefined, values.set));
  if (surveyed.outcome === "faulty") throw faulty(surveyed.faults);
  await print([railProfileCsv(surveyed.survey)]);
}

async function printEmptyGrid(words: readonly string[]): Promise<void> {
  const { values } = parsed(() =>
    parseArgs({
      args: [...words],
      options: {
        instrument: { type: "string" },
        readings: { type: "string", default: "77" },
        set: { type: "string", multiple: true },
        help: { type: "boolean" },
      },
    }),
  );
  if (values.help) return print([help]);
  const readings = Number(values.readings);
  const { fewest, most } = gridReadings;
  if (!/^\d+$/.test(values.readings) || readings < fewest || readings > most) {
    throw new WrongCall(`--readings ${values.readings}: give a whole number from ${fewest} to ${most}, as 77.`);
  }
  const settings = readSettings(settingsFrom(values.instrument, values.set));
  if (settings.outcome === "faulty") throw faulty(settings.faults);
  const resolved = resolveInstrument(loadInstrumentTable(), settings.settings);
  if (resolved.outcome === "faulty") throw faulty(resolved.faults);
  await print([emptyGrid(resolved.instrument, readings).csv]);
}

/** Loaded only here: the other tasks need no server. */
async function startServing(): Promise<void> {
  const { CantStart, serve } = await import("./serve.ts");
  try {
    await serve(process.env, (line) => void process.stdout.write(`${line}\n`));
  } catch (error) {
    throw error instanceof CantStart ? new Faulty(error.message) : error;
  }
}

function settingsFrom(instrument: string | undefined, pairs: readonly string[] = []): readonly SettingEntry[] {
  const chosen: [string, string][] = instrument === undefined ? [] : [["instrument", instrument]];
  return settingsFromOutside([...chosen, ...pairs.map(keyAndText)]);
}

function keyAndText(pair: string): [string, string] {
  const equals = pair.indexOf("=");
  if (equals < 1) throw new WrongCall(`--set ${pair}: write it as key=value, for example --set tip_radius=1.5`);
  return [pair.slice(0, equals).trim(), pair.slice(equals + 1).trim()];
}

/** parseArgs throws in its own words on an unknown option or a missing value: a wrong call. */
function parsed<T>(parse: () => T): T {
  try {
    return parse();
  } catch (error) {
    throw new WrongCall(error instanceof Error ? error.message : String(error));
  }
}

async function readFile(path: string, reader: ChunkTaker): Promise<void> {
  try {
    if (path !== "-" && (await isDevice(path))) throw new Faulty(`${path}: this is no file. Name a CSV file.`);
    for await (const chunk of path === "-" ? process.stdin : createReadStream(path)) reader.push(chunk);
  } catch (error) {
    const code = codeOf(error);
    if (code === null) throw error;
    throw new Faulty(unreadable(path, code));
  }
}

/** A device may never come to an end; a readings file may name any path. */
async function isDevice(path: string): Promise<boolean> {
  const found = await stat(path);
  return found.isBlockDevice() || (found.isCharacterDevice() && path !== "/dev/stdin");
}

function unreadable(path: string, code: string): string {
  if (code === "ENOENT") return `${path}: there is no such file.`;
  if (code === "EISDIR") return `${path}: this is a folder. Name the CSV file in it.`;
  if (code === "EACCES" || code === "EPERM") return `${path}: this file may not be read. Look at its permissions.`;
  return `${path}: this file can't be read (${code}).`;
}

function faulty(faults: readonly Fault[]): Faulty {
  return new Faulty(faults.map((fault) => onOneLine(faultInWords(fault))).join("\n"));
}

/** A setting may hold anything, even a line break or a code that moves the cursor: neither reaches the terminal. */
function onOneLine(text: string): string {
  return text.replace(/[\p{C}\p{Zl}\p{Zp}]+/gu, " ");
}

async function print(pieces: Iterable<string>): Promise<void> {
  await pipeline(Readable.from(pieces), process.stdout, { end: false });
}

function codeOf(error: unknown): string | null {
  return error instanceof Error && "code" in error && typeof error.code === "string" ? error.code : null;
}
