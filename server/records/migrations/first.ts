/** Migration 1: the store as it began. See tables.ts for what each column holds. */
import { type RawBuilder, sql } from "kysely";
import type { DatabaseKind } from "../database.ts";
import { columnsOf, refusals } from "./columns.ts";

export function first(kind: DatabaseKind): readonly RawBuilder<unknown>[] {
  const { text, whole, real, bytes, end } = columnsOf(kind);
  return [
    sql`create table instruments (
      id ${text} primary key,
      number ${text} not null,
      number_key ${text} not null unique,
      find_key ${text} not null,
      instrument ${text} not null,
      label ${text} not null,
      strings ${text},
      build ${text} not null,
      valuable ${whole} not null,
      dimensions ${text} not null,
      revision ${whole} not null,
      recorded_at ${text} not null,
      kept_visits ${whole} not null,
      visits ${whole} not null,
      last_visit ${text},
      last_decision ${text},
      due_rank ${whole} not null,
      due_day ${text} not null,
      outlook ${text} not null
    ) ${end}`,
    sql`create index instruments_as_typed on instruments (find_key, number_key)`,
    sql`create index instruments_as_due on instruments (due_rank, due_day, number_key)`,

    sql`create table visits (
      id ${text} primary key,
      instrument_id ${text} not null references instruments (id),
      ordinal ${whole} not null,
      date ${text} not null,
      settings ${text} not null,
      digest ${text} not null,
      recorded_at ${text} not null,
      unique (instrument_id, digest),
      unique (instrument_id, ordinal)
    ) ${end}`,
    sql`create index visits_by_day on visits (instrument_id, date, ordinal)`,

    sql`create table visit_notes (
      visit_id ${text} primary key references visits (id),
      reason ${text} not null,
      gauge ${text} not null,
      rail ${text} not null,
      humidity_percent ${real},
      hours_played ${real},
      decision_taken ${text},
      work_done ${text} not null,
      work_notes ${text} not null,
      after_visit ${text} references visits (id),
      withdrawn ${text},
      revision ${whole} not null,
      examinations ${whole} not null,
      player_revision ${whole} not null
    ) ${end}`,

    sql`create table files (
      sha256 ${text} primary key,
      byte_count ${whole} not null,
      packed ${bytes} not null
    ) ${end}`,

    sql`create table visit_files (
      visit_id ${text} not null references visits (id),
      part ${text} not null,
      sha256 ${text} not null references files (sha256),
      primary key (visit_id, part)
    ) ${end}`,
    sql`create index visit_files_by_hash on visit_files (sha256)`,

    sql`create table examinations (
      visit_id ${text} not null references visits (id),
      ordinal ${whole} not null,
      version ${text} not null,
      examined_at ${text} not null,
      findings ${text} not null,
      packed ${bytes} not null,
      primary key (visit_id, ordinal)
    ) ${end}`,

    sql`create table player_notes (
      visit_id ${text} primary key references visits (id),
      hand ${text} not null,
      notes ${text} not null,
      revision ${whole} not null
    ) ${end}`,

    sql`create table passwords (role ${text} primary key, hash ${text} not null) ${end}`,
    sql`create table sessions (
      token_sha256 ${text} primary key,
      role ${text} not null,
      began_at ${text} not null,
      expires_at ${text} not null
    ) ${end}`,
    sql`create table remarks (name ${text} primary key, says ${text} not null) ${end}`,

    ...refusals(kind, "instruments", false),
    ...refusals(kind, "visits", true),
    ...refusals(kind, "visit_notes", false),
    ...refusals(kind, "files", true),
    ...refusals(kind, "visit_files", true),
    ...refusals(kind, "examinations", true),
  ];
}
