/**
 * From a visit's files and words to a visit in the records: read this first of what is done with records.
 *
 * In: which instrument, the files as they came, settings, date, notes. Out: the visit, once it is safe in the store; or why
 * not: every fault together, and then nothing of it was kept. The files are kept byte for byte as they were given, whatever was read in them.
 *
 * Exactly the same visit once more (files, settings, day) is recognised before anything is examined, so whoever did not hear an answer may
 * ask again. The same readings under another visit or instrument are kept, or asked about first.
 */
import { createHash } from "node:crypto";
import type { Fault } from "../core/fault.ts";
import { outlookOf } from "../core/history/historyOf.ts";
import { fileParts, type GivenFile, type SettingTexts, type VisitRecord } from "../records/records.ts";
import { settingsFromOutside } from "../settingsFromOutside.ts";
import { examineForRecord, type FilesGiven } from "./examineForRecord.ts";
import type { Keeping } from "./keeping.ts";
import { plainWords } from "./plainWords.ts";
import { visitDate } from "./visitDate.ts";
import { type NotesSaid, noNotes, playerGiven, visitNotes } from "./visitNotes.ts";

/** As it comes in by form; unchecked. */
export type VisitSaid = {
  readonly instrumentNumber: string;
  /** ISO 8601, a day or an instant. */
  readonly date: string;
  readonly files: FilesGiven;
  readonly settings: SettingTexts;
  readonly notes: NotesSaid;
  /** Null: nothing was said of the player. */
  readonly player: { readonly hand?: string | null; readonly notes?: string | null } | null;
  /** What to do with readings that stand under another visit already. */
  readonly same: "keep" | "ask";
};

/** Where the same readings are kept already. */
export type AlreadyKept = { readonly instrumentNumber: string; readonly visitId: string; readonly date: string };

export type VisitKept =
  | { readonly outcome: "kept"; readonly visit: VisitRecord; readonly alreadyKept: readonly AlreadyKept[] }
  | { readonly outcome: "there already"; readonly visit: VisitRecord; readonly alreadyKept: readonly AlreadyKept[] }
  | { readonly outcome: "same readings"; readonly alreadyKept: readonly AlreadyKept[] }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] }
  | { readonly outcome: "unknown instrument" }
  | { readonly outcome: "unknown visit" };

export async function keepVisit(keeping: Keeping, said: VisitSaid): Promise<VisitKept> {
  const { store } = keeping;
  const record = await store.instrument(said.instrumentNumber);
  if (record === null) return { outcome: "unknown instrument" };
  const files = filesToKeep(said.files);
  const day = visitDate(said.date, keeping.now());

  const sameReadings = await store.visitsWithFile(sha256Of(files, "readings"));
  const twin = sameReadings.find(
    (visit) =>
      visit.instrumentNumber === record.number &&
      day.outcome !== "faulty" &&
      visit.date === day.date &&
      sameTexts(visit.settings, said.settings) &&
      fileParts.every((part) => sha256Of(visit.files, part) === sha256Of(files, part)),
  );
  const alreadyKept = sameReadings.filter((visit) => visit !== twin).map(whereKept);
  if (twin !== undefined) return { outcome: "there already", visit: twin, alreadyKept };
  if (said.same === "ask" && alreadyKept.length > 0) return { outcome: "same readings", alreadyKept };

  const notes = visitNotes(said.notes);
  const player = said.player === null ? { outcome: "checked" as const, player: null } : playerGiven(said.player);
  const settings = settingsFromOutside(Object.entries(said.settings));
  const examined = await examineForRecord(keeping, said.files, settings, record);
  const faults = [
    ...(day.outcome === "a day" ? [] : [day.fault]),
    ...(notes.outcome === "faulty" ? notes.faults : []),
    ...(player.outcome === "faulty" ? player.faults : []),
    ...unprintableSettings(said.settings),
    ...(examined.outcome === "faulty" ? examined.faults : []),
  ];
  if (faults.length > 0 || day.outcome !== "a day" || notes.outcome === "faulty") return { outcome: "faulty", faults };
  if (player.outcome === "faulty" || examined.outcome === "faulty") return { outcome: "faulty", faults };

  const kept = await store.keepVisit(
    record.number,
    {
      ...examined.made,
      date: day.date,
      settings: said.settings,
      notes: { ...noNotes, ...notes.notes },
      player: player.player,
      files,
    },
    outlookOf,
  );
  return kept.outcome === "kept" || kept.outcome === "there already" ? { ...kept, alreadyKept } : kept;
}

/** Whole and with their hashes; the pieces are copied together once. */
function filesToKeep(files: FilesGiven): readonly GivenFile[] {
  return fileParts.flatMap((part): GivenFile[] => {
    const pieces = files[part];
    if (pieces === null) return [];
    const bytes = Buffer.concat(pieces);
    return [{ part, sha256: createHash("sha256").update(bytes).digest("hex"), bytes }];
  });
}

/** Empty where there is no such file: no file hashes to that. */
function sha256Of(files: readonly Pick<GivenFile, "part" | "sha256">[], part: GivenFile["part"]): string {
  return files.find((file) => file.part === part)?.sha256 ?? "";
}

function sameTexts(one: SettingTexts, other: SettingTexts): boolean {
  const keys = Object.keys(one);
  return keys.length === Object.keys(other).length && keys.every((key) => one[key] === other[key]);
}

function whereKept({ instrumentNumber, id, date }: VisitRecord): AlreadyKept {
  return { instrumentNumber, visitId: id, date };
}

/** The settings are kept as they were said, so they may hold no more than any other text. */
export function unprintableSettings(settings: SettingTexts): readonly Fault[] {
  return Object.entries(settings).flatMap(([key, text]): Fault[] => {
    const plain = plainWords(`${key}: ${text}`, { most: 1000, lines: "one" });
    if (plain.outcome === "plain") return [];
    const { code, saw, remedy } = plain;
    return [{ where: "settings", line: null, column: null, code, saw, remedy }];
  });
}
