/**
 * Visits of an instrument: kept, read, corrected, examined again, compared; and the player's notes, which stand apart.
 */
import type { Examination } from "../../server/core/examination.ts";
import type { Findings } from "../../server/core/history/history.ts";
import type { PlayerGiven, VisitNotes } from "../../server/records/records.ts";
import { type Base, instrumentAddress, visitAddress } from "./addresses.ts";
import { formOf, type Given } from "./bench.ts";
import { ask, type Progress, type Reply, sendForm } from "./reach.ts";

export type VisitSummary = VisitNotes & {
  readonly id: string;
  readonly number: string;
  readonly date: string;
  readonly recordedAt: string;
  readonly revision: number;
  readonly findings: Findings;
};

export type FileGiven = {
  readonly part: "readings" | "thickness" | "rail";
  readonly sha256: string;
  readonly byteCount: number;
  readonly href: string;
};

export type Visit = VisitSummary & {
  readonly given: { readonly settings: Readonly<Record<string, string>>; readonly files: readonly FileGiven[] };
  readonly examined: { readonly ordinal: number; readonly version: string; readonly at: string };
  readonly examination: Examination;
  /** Other visits that hold the same readings; told where it was just kept. */
  readonly alreadyKept?: readonly KeptElsewhere[];
};

export type KeptElsewhere = { readonly number: string; readonly date: string; readonly href: string };

/** The visit before some work and the one that measures the board again after it, by their ids. */
export type Pair = { readonly before: string; readonly after: string };

export type NotesSaid = Partial<VisitNotes>;

export type ToKeep = {
  readonly given: Given;
  readonly date: string;
  readonly notes: NotesSaid;
  readonly player: PlayerGiven;
  /** "ask": refused (409, `alreadyKept`) where these readings are kept under another visit. */
  readonly same: "ask" | "keep";
};

/** The names of the notes as the form of a visit carries them. */
const notePart: Readonly<Record<keyof VisitNotes, string>> = {
  reason: "reason",
  gauge: "gauge",
  rail: "rail_used",
  humidityPercent: "humidity",
  hoursPlayed: "hours_played",
  decisionTaken: "decision_taken",
  workDone: "work_done",
  workNotes: "work_notes",
  afterVisit: "after_visit",
  withdrawn: "withdrawn",
};

/** 201: kept; 200: exactly this is kept already. */
export function keepVisit(
  base: Base,
  number: string,
  { given, date, notes, player, same }: ToKeep,
  tell?: (progress: Progress) => void,
): Promise<Reply<Visit>> {
  const form = formOf(given);
  form.append("date", date);
  form.append("same", same);
  for (const [key, value] of Object.entries(notes)) {
    if (value !== null && value !== "") form.append(notePart[key as keyof VisitNotes], String(value));
  }
  if (player.hand !== "") form.append("player_hand", player.hand);
  if (player.notes !== "") form.append("player_notes", player.notes);
  return sendForm(`${instrumentAddress(base, number)}/visits`, form, tell);
}

export type VisitList = { readonly visits: readonly VisitSummary[]; readonly next: string | null };

/** Newest first. */
export const visitsOf = (base: Base, number: string, limit: number): Promise<Reply<VisitList>> =>
  ask(`${instrumentAddress(base, number)}/visits?limit=${limit}`);

export const visit = (base: Base, number: string, id: string): Promise<Reply<Visit>> =>
  ask(visitAddress(base, number, id));
