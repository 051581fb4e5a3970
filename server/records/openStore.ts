/**
 * Opens a store: where the records are in, the store out, brought up to date.
 *
 * A folder holds an SQLite file (records.sqlite, made where there is none); `memory` is an SQLite store that is gone when it is
 * closed; a databaseUrl (postgres://…) names a PostgreSQL database. Rejects with StoreUnusable, in words for a luthier, or with
 * StoreUnavailable where it can't be reached just now.
 */
import { accessQueries } from "./access.ts";
import { checkStore } from "./check.ts";
import type { Changing, Database } from "./database.ts";
import { dueQueries } from "./due.ts";
import { examinationQueries } from "./examinations.ts";
import { fileQueries } from "./files.ts";
import { instrumentQueries, lockInstrument } from "./instruments.ts";
import { keepingVisits } from "./keepVisit.ts";
import { migrate } from "./migrations/migrate.ts";
import { openPostgres } from "./openPostgres.ts";
import { openSqlite } from "./openSqlite.ts";
import { renewingOutlooks } from "./outlooks.ts";
import { playerQueries } from "./playerNotes.ts";
import type { Store } from "./store.ts";
import { visitQueries } from "./visits.ts";

export type Where = { readonly folder: string } | { readonly memory: true } | { readonly databaseUrl: string };

export type OpenedBy = {
  /** Of the program; kept beside each migration. */
  readonly version: string;
  /** The clock, for what is recorded when; the system's without one. */
  readonly now?: () => Date;
};

export async function openStore(where: Where, { version, now = () => new Date() }: OpenedBy): Promise<Store> {
  const database = "databaseUrl" in where ? await openPostgres(where.databaseUrl) : await openSqlite(where);
  const instant = () => now().toISOString();
  try {
    await migrate(database, version, instant);
  } catch (error) {
    await database.close();
    throw error;
  }
  return storeOn(database, instant);
}

function storeOn(database: Database, now: () => string): Store {
  return {
    kind: database.kind,
    ...instrumentQueries(database, now),
    ...keepingVisits(database, now),
    ...visitQueries(database),
    ...fileQueries(database),
    ...examinationQueries(database, now),
    ...playerQueries(database),
    ...dueQueries(database),
    ...renewingOutlooks(database, (changing: Changing, id) => lockInstrument(changing, { id })),
    ...accessQueries(database),
    check: () => checkStore(database),
    backup: database.backup,
    ping: database.ping,
    close: database.close,
  };
}
