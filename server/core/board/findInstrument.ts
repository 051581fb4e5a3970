/**
 * Which instrument of the table a setting such as "viola 390", "3/4 violin" or "bass 5 strings" means.
 *
 * Kind, size and number of strings may stand in any order; the size may be left out. Faults list what there is.
 */
import type { Fault } from "../fault.ts";
import type { InstrumentTable, TableInstrument, TableKind } from "./instrumentTable.ts";
import { legible } from "./legible.ts";
import { settingFault } from "./settingFault.ts";
import type { Settings } from "./settings.ts";

export type FoundInstrument =
  | { readonly outcome: "found"; readonly kind: TableKind; readonly instrument: TableInstrument }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] };

export function findInstrument(table: InstrumentTable, settings: Settings): FoundInstrument {
  const faulty = (code: string, saw: string, remedy: string): FoundInstrument => ({
    outcome: "faulty",
    faults: [settingFault(settings.given.get("instrument"), code, saw, remedy)],
  });
  if (settings.instrument === null) {
    return faulty(
      "instrument-missing",
      "the instrument is not named",
      `Add \`instrument: …\` with one of: ${known(table)}.`,
    );
  }
  const { count, rest: words } = splitOffStringCount(plainWords(settings.instrument));
  const named = splitOffKind(table, words);
  if (named === null) {
    return faulty(
      "instrument-unknown",
      `\`${legible(settings.instrument)}\` is not an instrument of the table`,
      `Write one of: ${known(table)}.`,
    );
  }
  const { kind, rest: sizeWords } = named;
  const ofSize = kind.instruments.filter((instrument) => answersTo(kind, instrument, sizeWords));
  if (ofSize.length === 0) {
    return faulty(
      "size-unknown",
      `there is no \`${legible(settings.instrument)}\` in the table`,
      `Write one of: ${knownOf(kind)}; or take the nearest and give its measures (board_length, width_nut, …).`,
    );
  }
  const wanted = settings.strings?.length ?? count;
  if (count !== null && wanted !== null && count !== wanted) {
    return faulty(
      "string-count",
      `\`${legible(settings.instrument)}\` has ${count} strings but \`strings\` names ${wanted}`,
      "Make the two agree, or leave one of them out.",
    );
  }
  const chosen = ofSize.find((instrument) => instrument.strings.length === wanted) ?? ofSize[0];
  if (chosen === undefined || (count !== null && chosen.strings.length !== count && settings.strings === null)) {
    return faulty(
      "string-count",
      `the table has no ${kind.kind} with ${count} strings`,
      `Name them with \`strings\`, lowest first, or write one of: ${knownOf(kind)}.`,
    );
  }
  return { outcome: "found", kind, instrument: chosen };
}

/** Every instrument of the table as a setting would name it. */
export function instrumentNames(table: InstrumentTable): readonly string[] {
  return table.kinds.flatMap(namesOf);
}

function namesOf(kind: TableKind): readonly string[] {
  return kind.instruments.map((instrument) => {
    const sameSize = kind.instruments.filter((other) => other.size === instrument.size);
    const isFirst = sameSize[0] === instrument;
    return `${kind.kind} ${instrument.size}${isFirst ? "" : ` ${instrument.strings.length} strings`}`;
  });
}

function known(table: InstrumentTable): string {
  return instrumentNames(table).join(", ");
}

function knownOf(kind: TableKind): string {
  return namesOf(kind).join(", ");
}

function plainWords(written: string): string {
  return written
    .toLowerCase()
    .replace(/½/g, " 1/2")
    .replace(/¾/g, " 3/4")
    .replace(/(\d)\s*\/\s*(\d)/g, "$1/$2")
    .replace(/[\s,_-]+/g, " ")
    .replace(/(\d) ?mm\b/g, "$1")
    .trim();
}

/** The kind whose name, or longest other name, stands among the words; and the words left over. */
function splitOffKind(table: InstrumentTable, words: string): { kind: TableKind; rest: string } | null {
  const names = table.kinds
    .flatMap((kind) => [kind.kind, ...kind.alsoCalled].map((name) => ({ kind, name })))
    .sort((a, b) => b.name.length - a.name.length);
  for (const { kind, name } of names) {
    const padded = ` ${words} `;
    const at = padded.indexOf(` ${name} `);
    if (at >= 0) return { kind, rest: `${padded.slice(0, at)} ${padded.slice(at + name.length + 1)}`.trim() };
  }
  return null;
}

const numberWords: Readonly<Record<string, number>> = { three: 3, four: 4, five: 5, six: 6, seven: 7 };

function splitOffStringCount(words: string): { count: number | null; rest: string } {
  const match = /\b(\d|three|four|five|six|seven) ?(?:strings?|stringed)\b/.exec(words);
  if (match === null) return { count: null, rest: words };
  const [whole, number = ""] = match;
  return { count: numberWords[number] ?? Number(number), rest: words.replace(whole, " ").replace(/\s+/g, " ").trim() };
}

function answersTo(kind: TableKind, instrument: TableInstrument, sizeWords: string): boolean {
  if (sizeWords === "") return instrument.size === kind.usualSize;
  return instrument.size === sizeWords || instrument.alsoCalled.includes(sizeWords);
}
