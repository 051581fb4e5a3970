/**
 * The records as the store holds them: instruments, visits, files, examinations, and what concerns a person.
 *
 * Dates are calendar days ("2026-11-25"), times are instants ("2026-11-25T09:30:00.000Z"), both ISO 8601. `revision` counts the
 * changes of a record: whoever changes one says which revision they saw, and the later of two writers is told.
 */
import type { Job } from "../core/board/settings.ts";
import type { Decision, Examination } from "../core/examination.ts";
import type { Findings, HistoryVisit, Outlook, WorkDone } from "../core/history/history.ts";

/** Settings as key and text, as a workshop writes them (see `boardtrue help settings`). */
export type SettingTexts = Readonly<Record<string, string>>;

/** What a workshop says about an instrument; checked before it gets here. */
export type InstrumentGiven = {
  /** The workshop's own: unique whatever its case and spaces. */
  readonly number: string;
  /** As the `instrument` setting takes it: "cello", "violin 1/2". */
  readonly instrument: string;
  readonly label: string;
  /** Names of the strings where they differ from the table, lowest first; null: as usual. */
  readonly strings: string | null;
  readonly build: Job["build"];
  readonly valuable: boolean;
  /** Dimensions and limits that differ from the table. */
  readonly dimensions: SettingTexts;
};

export type InstrumentRecord = InstrumentGiven & {
  readonly id: string;
  readonly revision: number;
  readonly recordedAt: string;
  readonly visits: number;
  readonly lastVisit: string | null;
  /** Of that visit's latest examination. */
  readonly lastDecision: Decision | null;
};

export const fileParts = ["readings", "thickness", "rail"] as const;
export type FilePart = (typeof fileParts)[number];

/** A file as it was given, byte for byte. File names are not kept: they may name a person. */
export type GivenFile = { readonly part: FilePart; readonly sha256: string; readonly bytes: Uint8Array };

export const decisionsTaken = ["leave", "wait", "dress", "shape", "replace", "restorer"] as const;
export type DecisionTaken = (typeof decisionsTaken)[number];

/** What may be written down about a visit later, too. No names of persons belong here: see `PlayerNotes`. */
export type VisitNotes = {
  readonly reason: string;
  /** Words for gauge and rail: which ones of the workshop's. */
  readonly gauge: string;
  readonly rail: string;
  readonly humidityPercent: number | null;
  /** Since the visit before. */
  readonly hoursPlayed: number | null;
  readonly decisionTaken: DecisionTaken | null;
  readonly workDone: WorkDone;
  readonly workNotes: string;
  /** The visit that this one measures again after the work; of the same instrument. */
  readonly afterVisit: string | null;
  /** Why this visit does not count (a wrong instrument, a slip); null: it counts. Its readings stay. */
  readonly withdrawn: string | null;
};

export type VisitRecord = VisitNotes & {
  readonly id: string;
  readonly instrumentNumber: string;
  readonly date: string;
  /** Settings said beside the file, as they were given. */
  readonly settings: SettingTexts;
  readonly files: readonly { readonly part: FilePart; readonly sha256: string; readonly byteCount: number }[];
  readonly revision: number;
  readonly recordedAt: string;
  /** Of the latest examination. */
  readonly version: string;
  readonly findings: Findings;
};

/** One examination of a visit's readings; 1 is the first, made when the visit was kept. */
export type ExaminationRecord = {
  readonly ordinal: number;
  readonly version: string;
  readonly examinedAt: string;
  readonly findings: Findings;
};

export type ExaminationKept = ExaminationRecord & { readonly examination: Examination };

/** An examination just made; its points are few already (see `withPoints`). The store rounds lengths to 0.0001 mm. */
export type ExaminationMade = { readonly examination: Examination; readonly findings: Findings };

/** A new visit, ready to be kept. */
export type NewVisit = ExaminationMade & {
  readonly date: string;
  readonly settings: SettingTexts;
  readonly notes: VisitNotes;
  readonly player: PlayerGiven | null;
  readonly files: readonly GivenFile[];
};

/** What concerns a person; separate, and erased alone. */
export type PlayerGiven = { readonly hand: string; readonly notes: string };
export type PlayerNotes = PlayerGiven & { readonly revision: number };

/** An instrument as another store held it: id, revision and time stay as they were there. */
export type InstrumentBrought = InstrumentGiven & Pick<InstrumentRecord, "id" | "revision" | "recordedAt">;

/** A whole visit as another store held it, every examination with it (ordinals 1, 2, …): ids, revisions and times stay. */
export type VisitBrought = {
  readonly id: string;
  readonly date: string;
  readonly recordedAt: string;
  readonly revision: number;
  readonly settings: SettingTexts;
  readonly notes: VisitNotes;
  readonly player: PlayerNotes | null;
  readonly files: readonly GivenFile[];
  readonly examinations: readonly ExaminationKept[];
};

/** History -> outlook; the store works it out anew within each transaction that changes an instrument's visits. */
export type OutlookOf = (visits: readonly HistoryVisit[]) => Outlook;

/** One line of the due list. */
export type Due = {
  readonly instrumentNumber: string;
  readonly instrument: string;
  readonly label: string;
  readonly lastVisit: string | null;
  readonly outlook: Outlook;
};

/** A part of a list, and where the next part begins; null at the end. */
export type Page<Entry> = { readonly entries: readonly Entry[]; readonly next: string | null };
export type PageAsked = { readonly after: string | null; readonly limit: number };

export const roles = ["bench", "owner"] as const;
export type Role = (typeof roles)[number];

/** Somebody signed in; both are instants. */
export type Session = { readonly role: Role; readonly beganAt: string; readonly expiresAt: string };
