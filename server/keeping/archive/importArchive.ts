/**
 * An archive -> the store: instrument by instrument, visit by visit, each whole; and what happened to each, in words.
 *
 * Ids, revisions and times stay, so an archive brought in twice adds nothing the second time; what is here already is never
 * overwritten. A number that belongs to another instrument here is refused with its visits, the rest goes in. Every text, figure, day
 * and file is checked as at the door, every file against its check sum. Where the store fails half-way, what came in
 * stays, and bringing the archive in again goes on from there.
 *
 * In: the archive's path. Rejects with StoreUnavailable where the store fails, with the system's error where the file can't be read.
 */
import type { InstrumentTable } from "../../core/board/instrumentTable.ts";
import { outlookOf } from "../../core/history/historyOf.ts";
import type { InstrumentRecord } from "../../records/records.ts";
import type { Store } from "../../records/store.ts";
import { type ArchiveIn, openArchive } from "./archiveIn.ts";
import { checkedInstrument } from "./checkedRecords.ts";
import { names } from "./memberNames.ts";
import { type InstrumentFile, instrumentFile, parsedJson } from "./recordsFromJson.ts";
import { type ArchiveShapes, type MemberLimits, visitIn } from "./visitIn.ts";
import { visitsInOrder } from "./visitOrder.ts";
import { openZip, Unreadable, usualZipLimits, type ZipLimits } from "./zipIn.ts";

export type ImportLimits = MemberLimits & { readonly zip: ZipLimits };

/** Of the files as they were given, the most is what an upload may have. */
export function importLimits(givenBytes: number): ImportLimits {
  const megabytes = 2 ** 20;
  return {
    givenBytes,
    recordBytes: 4 * megabytes,
    examinationBytes: 64 * megabytes,
    examinationsBytes: 256 * megabytes,
    zip: usualZipLimits,
  };
}

export type Importing = {
  readonly store: Store;
  readonly table: InstrumentTable;
  readonly shapes: ArchiveShapes;
  readonly limits: ImportLimits;
  readonly now: Date;
  /** Hears of each instrument (visit null) and each visit as it is done. */
  readonly tell?: (line: ImportLine) => void;
};

/** What happened to one instrument or visit. */
export type ImportLine = {
  /** The number where it could be read, else the folder. */
  readonly instrument: string;
  /** The visit's folder, "2026-11-25-…". */
  readonly visit: string | null;
  readonly outcome: "added" | "there already" | "refused";
  /** Why it was refused, or how what is here differs; null where there is nothing to say. */
  readonly says: string | null;
};

export type ImportCount = { readonly instruments: number; readonly visits: number };

export type Imported =
  | {
      readonly outcome: "taken in";
      readonly added: ImportCount;
      readonly alreadyThere: ImportCount;
      readonly refused: ImportCount;
      /** Of what was refused or differs, the first thousand. */
      readonly remarks: readonly ImportLine[];
    }
  | { readonly outcome: "refused"; readonly why: string };

const mostRemarks = 1000;

export async function importArchive(path: string, importing: Importing): Promise<Imported> {
  const opened = await openZip(path, importing.limits.zip);
  if (opened.outcome === "refused") return opened;
  try {
    const archive = await openArchive(opened.zip);
    if (archive.outcome === "refused") return archive;
    return await takeIn(archive.archive, importing);
  } finally {
    opened.zip.close();
  }
}

async function takeIn(archive: ArchiveIn, importing: Importing): Promise<Imported> {
  const counts = {
    added: { instruments: 0, visits: 0 },
    "there already": { instruments: 0, visits: 0 },
    refused: { instruments: 0, visits: 0 },
  };
  const remarks: ImportLine[] = [];
  for (const folder of archive.instrumentFolders) {
    for await (const line of instrumentIn(archive, folder, importing)) {
      counts[line.outcome][line.visit === null ? "instruments" : "visits"]++;
      if (line.says !== null && remarks.length < mostRemarks) remarks.push(line);
      importing.tell?.(line);
    }
  }
  const { added, "there already": alreadyThere, refused } = counts;
  return { outcome: "taken in", added, alreadyThere, refused, remarks };
}

async function* instrumentIn(archive: ArchiveIn, folder: string, importing: Importing): AsyncGenerator<ImportLine> {
  const { store, table, limits } = importing;
  let file: InstrumentFile | null = null;
  const refusals = (says: string) => refusedInstrument(folder, file, says);
  let here: InstrumentRecord;
  try {
    const bytes = await archive.bytes(`${folder}${names.instrument}`, limits.recordBytes);
    const read = parsedJson(bytes, instrumentFile);
    if (read.outcome === "faulty") throw new Unreadable(`${names.instrument}: ${read.why}`);
    file = read.parsed;
    const brought = checkedInstrument(file, table);
    const { outcome, instrument } = await store.importInstrument(brought);
    if (outcome === "number taken") {
      yield* refusals("another instrument has this number here. Give that one another number, then import again.");
      return;
    }
    const says = outcome === "there already" ? differs("instrument", brought.revision, instrument.revision) : null;
    yield { instrument: instrument.number, visit: null, outcome, says };
    here = instrument;
  } catch (error) {
    if (!(error instanceof Unreadable)) throw error;
    yield* refusals(`${error.message}.`);
    return;
  }
  yield* visitsIn(archive, folder, file.visits, here, importing);
}

/** An instrument that can't come in, and each of its visits that are known by then. */
function* refusedInstrument(folder: string, file: InstrumentFile | null, says: string): Generator<ImportLine> {
  const instrument = file?.number ?? folder.split("/").at(-2) ?? folder;
  yield { instrument, visit: null, outcome: "refused", says };
  for (const visit of file?.visits ?? []) yield { instrument, visit, outcome: "refused", says: null };
}

async function* visitsIn(
  archive: ArchiveIn,
  folder: string,
  visits: readonly string[],
  instrument: InstrumentRecord,
  importing: Importing,
): AsyncGenerator<ImportLine> {
  /** Ids under which the same visit is kept here already, where they are others than the archive's. */
  const otherIds = new Map<string, string>();
  for (const visit of await visitsInOrder(archive, folder, visits, importing.limits)) {
    const line = { instrument: instrument.number, visit };
    try {
      yield { ...line, ...(await oneVisitIn(archive, `${folder}visits/${visit}/`, instrument, importing, otherIds)) };
    } catch (error) {
      if (!(error instanceof Unreadable)) throw error;
      yield { ...line, outcome: "refused", says: `${error.message}.` };
    }
  }
}

async function oneVisitIn(
  archive: ArchiveIn,
  folder: string,
  { number }: InstrumentRecord,
  { store, shapes, limits, now }: Importing,
  otherIds: Map<string, string>,
): Promise<Pick<ImportLine, "outcome" | "says">> {
  const visit = await visitIn(archive, folder, shapes, limits, now);
  const { afterVisit } = visit.notes;
  const notes = { ...visit.notes, afterVisit: afterVisit && (otherIds.get(afterVisit) ?? afterVisit) };
  const kept = await store.importVisit(number, { ...visit, notes }, outlookOf);
  switch (kept.outcome) {
    case "kept":
      return { outcome: "added", says: null };
    case "there already": {
      if (kept.visit.id === visit.id) {
        return { outcome: "there already", says: differs("visit", visit.revision, kept.visit.revision) };
      }
      otherIds.set(visit.id, kept.visit.id);
      return { outcome: "there already", says: "the same readings, settings and day were kept here by themselves." };
    }
    case "id taken":
      return { outcome: "refused", says: "another instrument has this visit here." };
    case "unknown visit":
      return { outcome: "refused", says: "it measures again after a visit that is not here." };
    case "unknown instrument":
      return { outcome: "refused", says: `there is no ${number} here any more.` };
  }
}

/** What was changed on one side only is told, since neither is written over the other. */
function differs(what: "instrument" | "visit", there: number, here: number): string | null {
  if (there === here) return null;
  const where = there > here ? "in the archive" : "here";
  return `the ${what} was changed later ${where}; what is here stays.`;
}
