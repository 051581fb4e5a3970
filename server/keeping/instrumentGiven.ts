/**
 * What a workshop says about an instrument, checked: all faults together, or ready for the store.
 *
 * In: number, kind and size, label, strings, build, value, and dimensions in mm by setting key ("board_length": 690), texts
 * or numbers. Out: the instrument as the store takes it (kind and size in the table's own words), or every fault, each with
 * `where: "instrument"`. Dimensions are read by the same table as those of a readings file, and refused for the same reasons.
 */
import type { InstrumentTable } from "../core/board/instrumentTable.ts";
import { nearestWord } from "../core/board/nearestWord.ts";
import { plainKey, readSettings } from "../core/board/readSettings.ts";
import { resolveInstrument } from "../core/board/resolveInstrument.ts";
import { settingTable } from "../core/board/settingTable.ts";
import type { Fault } from "../core/fault.ts";
import { shownSafely } from "../core/readings/shownSafely.ts";
import type { InstrumentGiven, SettingTexts } from "../records/records.ts";
import { kindAndSize } from "./kindAndSize.ts";
import { plainWords, type TextRules } from "./plainWords.ts";
import { recordSettings } from "./recordSettings.ts";

/** As it comes in: what is left out is as usual. Blank texts count as left out. */
export type InstrumentSaid = {
  readonly number?: string;
  /** "cello", "violin half"; the size may stand in it or apart. */
  readonly kind?: string;
  readonly size?: string | null;
  readonly label?: string | null;
  readonly strings?: string | null;
  readonly build?: string | null;
  readonly valuable?: boolean | null;
  readonly dimensions?: Readonly<Record<string, string | number>> | null;
};

export type CheckedInstrument =
  | { readonly outcome: "checked"; readonly given: InstrumentGiven }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] };

/** Keys that tell of an instrument, its dimensions and limits; those of gauge, file and job do not. */
export const dimensionKeys: readonly string[] = settingTable
  .filter(({ figure }) => figure !== null)
  .map(({ key }) => key);

const numberRules: TextRules = { most: 40, lines: "one" };
const labelRules: TextRules = { most: 200, lines: "one" };
/** Longer than any setting that means something. */
const settingRules: TextRules = { most: 200, lines: "one" };

export function instrumentGiven(said: InstrumentSaid, table: InstrumentTable): CheckedInstrument {
  const faults: Fault[] = [];
  const words = (what: string, written: string, rules: TextRules): string => {
    const plain = plainWords(written, rules);
    if (plain.outcome === "plain") return plain.text;
    faults.push(instrumentFault(plain.code, `${what}: ${plain.saw}`, plain.remedy));
    return "";
  };
  const number = numberFrom(said.number ?? "", faults);
  const label = words("the label", said.label ?? "", labelRules);
  const stringsSaid = words("the strings", said.strings ?? "", settingRules);
  const strings = stringsSaid === "" ? null : stringsSaid;
  const build = buildFrom(words("the build", said.build ?? "", settingRules), faults);
  const dimensions = dimensionsFrom(said.dimensions ?? {}, words, faults);

  const kindSaid = words("kind and size", `${said.kind ?? ""} ${said.size ?? ""}`, settingRules);
  const faultsOfWords = faults.length;
  const about = { strings, build, valuable: said.valuable ?? false, dimensions };
  const known = kindSaid === "" ? kindMissing(table) : kindAndSize(table, kindSaid, strings);
  if (known.outcome === "unknown") faults.push(...known.faults);
  const instrument = known.outcome === "known" ? known.instrument : null;
  if (faultsOfWords === 0 && instrument !== null) faults.push(...figureFaults({ ...about, instrument }, table));
  if (faults.length > 0 || instrument === null) {
    return { outcome: "faulty", faults: faults.map((fault) => ({ ...fault, where: "instrument", line: null })) };
  }
  return { outcome: "checked", given: { number, instrument, label, ...about } };
}

/** The record with what is said anew in place of what stood there; checked as a whole, since dimensions hang together. */
export function instrumentChanged(
  record: InstrumentGiven,
  said: InstrumentSaid,
  table: InstrumentTable,
): CheckedInstrument {
  const kept: InstrumentSaid =
    said.kind === undefined && said.size !== undefined ? { kind: kindOf(record, table) } : { kind: record.instrument };
  const { number, label, strings, build, valuable, dimensions } = record;
  return instrumentGiven({ ...kept, number, label, strings, build, valuable, dimensions, ...said }, table);
}

function kindOf({ instrument, strings }: InstrumentGiven, table: InstrumentTable): string {
  const known = kindAndSize(table, instrument, strings);
  return known.outcome === "known" ? known.kind : instrument;
}

function numberFrom(written: string, faults: Fault[]): string {
  const plain = plainWords(written, numberRules);
  if (plain.outcome === "refused") {
    faults.push(instrumentFault(plain.code, `the number: ${plain.saw}`, plain.remedy));
    return "";
  }
  // Composed, so that an accent typed in one stroke or in two makes the same number; one blank where several stand.
  const number = plain.text.normalize("NFC").replace(/\s+/g, " ");
  if (number === "") {
    faults.push(
      instrumentFault(
        "number-missing",
        "the instrument has no number",
        "Give the workshop's own number, such as C-07.",
      ),
    );
  } else if (/^\.+$/.test(number)) {
    faults.push(
      instrumentFault(
        "number-dots",
        `the number is ${shownSafely(number)}`,
        "Give a number with a letter or a digit in it.",
      ),
    );
  }
  return number;
}

function buildFrom(written: string, faults: Fault[]): InstrumentGiven["build"] {
  const build = builds.find((known) => known === written.toLowerCase());
  if (written !== "" && build === undefined) {
    const remedy = `Did you mean ${nearestWord(written.toLowerCase(), builds)}? Choose one of: ${builds.join(", ")}.`;
    faults.push(instrumentFault("not-a-choice", `the build is ${shownSafely(written)}`, remedy));
  }
  return build ?? "unknown";
}

const builds: readonly InstrumentGiven["build"][] = ["solid", "veneered", "dyed", "unknown"];

function dimensionsFrom(
  said: Readonly<Record<string, string | number>>,
  words: (what: string, written: string, rules: TextRules) => string,
  faults: Fault[],
): SettingTexts {
  const dimensions = new Map<string, string>();
  for (const [written, value] of Object.entries(said)) {
    const key = plainKey(written);
    if (!dimensionKeys.includes(key)) {
      const remedy = `Did you mean \`${nearestWord(key, dimensionKeys)}\`? What concerns gauge, file or job is said at each visit.`;
      faults.push(
        instrumentFault("unknown-dimension", `${shownSafely(written)} is no dimension of an instrument`, remedy),
      );
      continue;
    }
    const text = words(`\`${key}\``, String(value), settingRules);
    if (text !== "") dimensions.set(key, text);
  }
  return Object.fromEntries(dimensions);
}

/** What is wrong with the dimensions, each by itself and together. */
function figureFaults(record: Omit<InstrumentGiven, "number" | "label">, table: InstrumentTable): readonly Fault[] {
  const read = readSettings(recordSettings(record));
  if (read.outcome === "faulty") return read.faults;
  const resolved = resolveInstrument(table, read.settings);
  return resolved.outcome === "faulty" ? resolved.faults : [];
}

function kindMissing(table: InstrumentTable): { readonly outcome: "unknown"; readonly faults: readonly Fault[] } {
  const kinds = table.kinds.map(({ kind }) => kind).join(", ");
  return {
    outcome: "unknown",
    faults: [instrumentFault("kind-missing", "the instrument has no kind", `Choose one of: ${kinds}.`)],
  };
}

function instrumentFault(code: string, saw: string, remedy: string): Fault {
  return { where: "instrument", line: null, column: null, code, saw, remedy };
}
