/**
 * Kind and size behind an instrument's own words: "violin half" is a violin of size 1/2.
 *
 * In: the words of the `instrument` setting, the names of the strings where somebody gave them, the table. Out: kind, size, the table's words
 * for them, and whether a size was said at all; or faults that list what there is, the nearest first.
 */
import { findInstrument, instrumentNames } from "../core/board/findInstrument.ts";
import type { Kind } from "../core/board/instrument.ts";
import type { InstrumentTable } from "../core/board/instrumentTable.ts";
import { nearestWord } from "../core/board/nearestWord.ts";
import { readSettings } from "../core/board/readSettings.ts";
import type { Fault } from "../core/fault.ts";
import { settingsFromOutside } from "../settingsFromOutside.ts";

export type KindAndSize = {
  readonly outcome: "known";
  readonly kind: Kind;
  readonly size: string;
  /** In the table's words: "cello", "violin 1/2", "bass 5 strings". */
  readonly instrument: string;
  readonly isSizeSaid: boolean;
};

export function kindAndSize(
  table: InstrumentTable,
  instrument: string,
  strings: string | null = null,
): KindAndSize | { readonly outcome: "unknown"; readonly faults: readonly Fault[] } {
  const said = readSettings(
    settingsFromOutside(Object.entries({ instrument, ...(strings === null ? {} : { strings }) })),
  );
  if (said.outcome === "faulty") return { outcome: "unknown", faults: said.faults };
  const found = findInstrument(table, said.settings);
  if (found.outcome === "faulty") {
    const nearest = nearestInstrument(instrument, table);
    return {
      outcome: "unknown",
      faults: found.faults.map((fault) => ({ ...fault, remedy: `Did you mean ${nearest}? ${fault.remedy}` })),
    };
  }
  const { kind, instrument: ofTable } = found;
  const isFirstOfSize = kind.instruments.find(({ size }) => size === ofTable.size) === ofTable;
  const countSaid = isFirstOfSize || strings !== null ? [] : [`${ofTable.strings.length} strings`];
  const sizeSaid = ofTable.size === kind.usualSize ? [] : [ofTable.size];
  return {
    outcome: "known",
    kind: kind.kind,
    size: ofTable.size,
    instrument: [kind.kind, ...sizeSaid, ...countSaid].join(" "),
    isSizeSaid: ![kind.kind, ...kind.alsoCalled].includes(instrument.trim().toLowerCase()),
  };
}

/** The nearest by its letters; of those that begin alike, the one whose size is nearest: half a cello is nearer to 3/4 than to 4/4. */
function nearestInstrument(written: string, table: InstrumentTable): string {
  const words = written.trim().toLowerCase();
  const names = instrumentNames(table);
  const size = sizeIn(words);
  const alike = names.filter((name) => words.startsWith(name.split(" ")[0] ?? name));
  if (size === null || alike.length === 0) return nearestWord(words, names);
  const off = (name: string): number => Math.abs((sizeIn(name) ?? Number.POSITIVE_INFINITY) - size);
  return alike.reduce((nearest, name) => (off(name) < off(nearest) ? name : nearest));
}

/** "1/2" is 0.5, "390" is 390; null where no size stands. */
function sizeIn(words: string): number | null {
  const fraction = /(\d+)\s*\/\s*(\d+)/.exec(words);
  if (fraction !== null) return Number(fraction[1]) / Number(fraction[2]);
  const length = /\d{3}/.exec(words);
  return length === null ? null : Number(length[0]);
}
