/**
 * Brings a store up to date: each migration in a transaction of its own, with the line that says it was done.
 *
 * Two programs that open one store at once take turns (SQLite: a transaction that writes locks the file; PostgreSQL: an advisory
 * lock), and the second finds everything done. A store that a newer version has changed is left alone and refused in words.
 */
import { type RawBuilder, sql } from "kysely";
import type { Changing, Database, DatabaseKind } from "../database.ts";
import { StoreUnusable } from "../store.ts";
import { columnsOf } from "./columns.ts";
import { first } from "./first.ts";

export type Migration = {
  readonly title: string;
  readonly statements: (kind: DatabaseKind) => readonly RawBuilder<unknown>[];
};

/** In the order in which they are done; numbered from 1. One that was ever released is never changed, only followed by another. */
const migrations: readonly Migration[] = [{ title: "the store as it began", statements: first }];

/** Any number, as long as it stays the same: what programs that migrate one PostgreSQL database wait for one another by. */
const advisoryLock = 4_870_001;

/** `now`: an instant, ISO 8601. */
export async function migrate(
  database: Database,
  version: string,
  now: () => string,
  steps = migrations,
): Promise<void> {
  const { kind } = database;
  for (let isDone = false; !isDone; ) {
    isDone = await database.change(async (changing) => {
      if (kind === "PostgreSQL") await sql`select pg_advisory_xact_lock(${advisoryLock})`.execute(changing);
      const done = await migrationsDone(changing, kind);
      if (done > steps.length) throw new StoreUnusable(fromNewerVersion);
      if (done === steps.length) return true;
      const step = steps[done];
      for (const statement of step.statements(kind)) await statement.execute(changing);
      const line = { number: done + 1, title: step.title, version, applied_at: now() };
      await changing.insertInto("migrations").values(line).execute();
      return false;
    });
  }
}

const fromNewerVersion =
  "These records were last written by a newer version of Boardtrue, which keeps them in another way. " +
  "Use that version or a newer one; nothing was changed.";

async function migrationsDone(changing: Changing, kind: DatabaseKind): Promise<number> {
  const { text, whole, end } = columnsOf(kind);
  await sql`create table if not exists migrations (
    number ${whole} primary key, title ${text} not null, version ${text} not null, applied_at ${text} not null
  ) ${end}`.execute(changing);
  const last = await changing
    .selectFrom("migrations")
    .select("number")
    .orderBy("number", "desc")
    .limit(1)
    .executeTakeFirst();
  return last?.number ?? 0;
}
