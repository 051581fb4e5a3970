/**
 * The store: everything that can be asked of it, whether SQLite or PostgreSQL is behind it.
 *
 * A refusal that the world may give (a number taken, a revision gone by) is a value; a store that can't be reached, is locked for
 * too long or has no room rejects with StoreUnavailable, and then nothing of that call was kept. A call that resolved is on disk.
 */

import type { HistoryVisit } from "../core/history/history.ts";
import type {
  Due,
  ExaminationKept,
  ExaminationMade,
  ExaminationRecord,
  InstrumentBrought,
  InstrumentGiven,
  InstrumentRecord,
  NewVisit,
  OutlookOf,
  Page,
  PageAsked,
  PlayerGiven,
  PlayerNotes,
  Role,
  Session,
  VisitBrought,
  VisitNotes,
  VisitRecord,
} from "./records.ts";

export type StoreTrouble = "unreachable" | "locked" | "full" | "damaged" | "read-only";

export class StoreUnavailable extends Error {
  readonly trouble: StoreTrouble;

  constructor(trouble: StoreTrouble, options?: ErrorOptions) {
    super(`the store is ${trouble}`, options);
    this.trouble = trouble;
  }
}

/** Someone else changed it since: here is how it stands now. */
export type Changed<Entry> =
  | { readonly outcome: "changed"; readonly entry: Entry }
  | { readonly outcome: "changed meanwhile"; readonly now: Entry }
  | { readonly outcome: "unknown" };

export type Kept =
  | { readonly outcome: "kept"; readonly visit: VisitRecord }
  /** The same files, settings and day for the same instrument: it is there already, and was not kept twice. */
  | { readonly outcome: "there already"; readonly visit: VisitRecord }
  | { readonly outcome: "unknown instrument" }
  /** `afterVisit` names no visit of this instrument. */
  | { readonly outcome: "unknown visit" };

/** A cursor that this list did not hand out. */
export class BadCursor extends Error {
  constructor() {
    super("this is no place in the list");
  }
}

/** The store can't be used at all, and waiting won't help: made by a newer version, say. The message is for a luthier. */
export class StoreUnusable extends Error {}

export type Store = {
  /** "SQLite" or "PostgreSQL", for whoever watches over it. */
  readonly kind: "SQLite" | "PostgreSQL";

  addInstrument(
    given: InstrumentGiven,
  ): Promise<{ readonly outcome: "added" | "number taken"; readonly instrument: InstrumentRecord }>;
  instrument(number: string): Promise<InstrumentRecord | null>;
  /** By number as one types, whatever its case and spaces: those that begin with it first, then those that hold it. */
  findInstruments(typed: string, asked: PageAsked): Promise<Page<InstrumentRecord>>;
  /** The number and what stands in `changes`; a new number may be taken. */
  changeInstrument(
    number: string,
    revision: number,
    changes: Partial<InstrumentGiven>,
  ): Promise<Changed<InstrumentRecord> | { readonly outcome: "number taken" }>;

  keepVisit(instrumentNumber: string, visit: NewVisit, outlookOf: OutlookOf): Promise<Kept>;
  visit(instrumentNumber: string, id: string): Promise<VisitRecord | null>;
  /** Newest first: by day, then by the order in which they were kept. */
  visits(instrumentNumber: string, asked: PageAsked): Promise<Page<VisitRecord>>;
  /** All that count, oldest first. */
  historyVisits(instrumentNumber: string): Promise<readonly HistoryVisit[]>;
  changeVisit(
    instrumentNumber: string,
    id: string,
    revision: number,
    changes: Partial<VisitNotes>,
    outlookOf: OutlookOf,
  ): Promise<Changed<VisitRecord> | { readonly outcome: "unknown visit" }>;
  /** Visits of any instrument that hold a file of this SHA-256 (hex). */
  visitsWithFile(sha256: string): Promise<readonly VisitRecord[]>;
  /** Byte for byte as it was given. */
  fileBytes(sha256: string): Promise<Uint8Array | null>;

  examinations(visitId: string, asked: PageAsked): Promise<Page<ExaminationRecord>>;
  /** The latest without an ordinal. */
  examination(visitId: string, ordinal?: number): Promise<ExaminationKept | null>;
  /** A further one beside those that stand. */
  addExamination(visitId: string, made: ExaminationMade, outlookOf: OutlookOf): Promise<ExaminationKept | null>;

  playerNotes(visitId: string): Promise<PlayerNotes | null>;
  /** `revision` null: none were there. */
  setPlayerNotes(visitId: string, revision: number | null, given: PlayerGiven): Promise<Changed<PlayerNotes | null>>;
  /** Leaves nothing of them in the store's files. How many were erased. */
  erasePlayerNotes(of: { readonly visitId: string } | { readonly instrumentNumber: string }): Promise<number>;

  /** Those reached first, then the soonest, then those not told yet. */
  due(asked: PageAsked): Promise<Page<Due>>;
  /** Works every outlook out anew where another version of the program did so last; remembers this one. How many. */
  renewOutlooks(outlookOf: OutlookOf, version: string): Promise<number>;

  passwordHash(role: Role): Promise<string | null>;
  /** Signs everybody of that role out in the same transaction: an old password opens nothing any more. */
  setPasswordHash(role: Role, hash: string): Promise<void>;
  /** Drops the sessions that have expired at `beganAt`, too. */
  addSession(tokenSha256: string, session: Session): Promise<void>;
  /** Null where there is none, or it has expired at `now`. */
  session(tokenSha256: string, now: string): Promise<Session | null>;
  /** Moves the end of a session that is in use; one that has been ended meanwhile stays so. */
  renewSession(tokenSha256: string, expiresAt: string): Promise<void>;
  endSession(tokenSha256: string): Promise<void>;

  /** "there already": this very id is here, whatever it says now; "number taken": by another id. */
  importInstrument(brought: InstrumentBrought): Promise<{
    readonly outcome: "added" | "there already" | "number taken";
    readonly instrument: InstrumentRecord;
  }>;
  /** The whole visit or nothing of it. "there already": the same id, or the same files, settings and day, of this instrument. */
  importVisit(
    instrumentNumber: string,
    brought: VisitBrought,
    outlookOf: OutlookOf,
  ): Promise<Kept | { readonly outcome: "id taken" }>;

  /** What is wrong, in words; empty where all is well: integrity, foreign keys, every file's hash, every examination readable. */
  check(): Promise<readonly string[]>;
  /** A whole copy into a new file, while others read and write. SQLite only: PostgreSQL has its own tools. */
  backup(path: string): Promise<void>;
  /** Rejects with StoreUnavailable where it can't be reached or written. */
  ping(): Promise<void>;
  close(): Promise<void>;
};
