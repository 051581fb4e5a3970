/**
 * The tables as kysely knows them; the same in SQLite and PostgreSQL (made in `migrations/`).
 *
 * Times, days and ids are text; a yes or no is 1 or 0; what is kept as JSON says so. `visits`, `visit_files`, `files` and
 * `examinations` never change and never go: the database itself refuses it. What may be written down later stands in `visit_notes`,
 * what concerns a person in `player_notes` alone.
 */
export type InstrumentsTable = {
  id: string;
  number: string;
  /** What must be unique of the number (see numberKeys.ts). */
  number_key: string;
  /** What typing is held against. */
  find_key: string;
  instrument: string;
  label: string;
  strings: string | null;
  build: string;
  valuable: number;
  /** JSON: SettingTexts. */
  dimensions: string;
  revision: number;
  recorded_at: string;
  /** Visits ever kept, withdrawn ones too: the ordinal of the latest. */
  kept_visits: number;
  /** Those that count. */
  visits: number;
  last_visit: string | null;
  last_decision: string | null;
  /** 0 reached, 1 a range is told, 2 not told yet. */
  due_rank: number;
  /** The day of that; "" where it is not told. */
  due_day: string;
  /** JSON: Outlook. */
  outlook: string;
};

export type VisitsTable = {
  id: string;
  instrument_id: string;
  /** In the order in which the instrument's visits were kept, from 1. */
  ordinal: number;
  date: string;
  /** JSON: SettingTexts. */
  settings: string;
  /** SHA-256 of day, settings and files: the same again is recognised by it. */
  digest: string;
  recorded_at: string;
};

export type VisitNotesTable = {
  visit_id: string;
  reason: string;
  gauge: string;
  rail: string;
  humidity_percent: number | null;
  hours_played: number | null;
  decision_taken: string | null;
  work_done: string;
  work_notes: string;
  after_visit: string | null;
  withdrawn: string | null;
  revision: number;
  /** How many there are: the ordinal of the latest. */
  examinations: number;
  /** Counts on even where the player's notes were erased, so that an old revision never fits again. */
  player_revision: number;
};

export type FilesTable = {
  sha256: string;
  byte_count: number;
  /** gzip. */
  packed: Uint8Array;
};

export type VisitFilesTable = { visit_id: string; part: string; sha256: string };

export type ExaminationsTable = {
  visit_id: string;
  ordinal: number;
  version: string;
  examined_at: string;
  /** JSON: Findings. */
  findings: string;
  /** JSON, gzip: Examination. */
  packed: Uint8Array;
};

export type PlayerNotesTable = { visit_id: string; hand: string; notes: string; revision: number };

export type PasswordsTable = { role: string; hash: string };
export type SessionsTable = { token_sha256: string; role: string; began_at: string; expires_at: string };

/** What the store remembers about itself, by name. */
export type RemarksTable = { name: string; says: string };

export type MigrationsTable = { number: number; title: string; version: string; applied_at: string };

export type Tables = {
  instruments: InstrumentsTable;
  visits: VisitsTable;
  visit_notes: VisitNotesTable;
  files: FilesTable;
  visit_files: VisitFilesTable;
  examinations: ExaminationsTable;
  player_notes: PlayerNotesTable;
  passwords: PasswordsTable;
  sessions: SessionsTable;
  remarks: RemarksTable;
  migrations: MigrationsTable;
};
