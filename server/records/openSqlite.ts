/**
 * SQLite, opened so that nothing acknowledged is lost: a folder in, the database out.
 *
 * A write-ahead log, so that reading and writing go side by side; every commit synced to the disk (also past the drive's cache on
 * macOS); foreign keys; what is deleted is overwritten. Each is asked for again: some file systems refuse the log, and then it is
 * said instead of being less safe in silence.
 */
import { closeSync, mkdirSync, openSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { DatabaseSync, type DatabaseSyncInstance } from "@photostructure/sqlite";
import { Kysely, sql } from "kysely";
import { backupSqlite } from "./backup.ts";
import type { Asking, Database } from "./database.ts";
import { blockingMs, patiently, sqliteDialect } from "./sqliteDialect.ts";
import { isTakenInSqlite, sqliteTrouble } from "./sqliteTrouble.ts";
import { StoreUnavailable, StoreUnusable } from "./store.ts";
import type { Tables } from "./tables.ts";

const fileName = "records.sqlite";

export async function openSqlite(where: { readonly folder: string } | { readonly memory: true }): Promise<Database> {
  return told(async () => {
    const path = "folder" in where ? fileIn(where.folder) : ":memory:";
    const sqlite = new DatabaseSync(path, { timeout: blockingMs, defensive: true });
    try {
      await setUp(sqlite, path);
    } catch (error) {
      sqlite.close();
      throw error;
    }
    return databaseOf(sqlite);
  });
}

/** For its owner's eyes only: it holds password hashes and what was noted about players. */
function fileIn(folder: string): string {
  const path = join(folder, fileName);
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    closeSync(openSync(path, "a", 0o600));
  } catch (error) {
    throw new StoreUnusable(
      `The records can't be kept in ${folder}: ${error instanceof Error ? error.message : error}. Choose another folder with BOARDTRUE_DATA.`,
      { cause: error },
    );
  }
  return path;
}

async function setUp(sqlite: DatabaseSyncInstance, path: string): Promise<void> {
  const isInMemory = path === ":memory:";
  const wanted = [
    ["journal_mode", "wal", isInMemory ? "memory" : "wal"],
    ["synchronous", "full", 2],
    ["fullfsync", "on", 1],
    ["checkpoint_fullfsync", "on", 1],
    ["foreign_keys", "on", 1],
    ["secure_delete", "on", 1],
    ["trusted_schema", "off", 0],
  ] as const;
  for (const [name, setting, expected] of wanted) {
    await patiently(() => sqlite.exec(`pragma ${name} = ${setting}`));
    const is = await patiently(() => pragma(sqlite, name));
    if (is === expected) continue;
    throw new StoreUnusable(
      `The records can't be kept safely in ${path}: its ${name} stays ${is} (a network drive, perhaps). Choose a folder on a disk of this machine with BOARDTRUE_DATA.`,
    );
  }
}

function pragma(sqlite: DatabaseSyncInstance, name: string): unknown {
  const row: unknown = sqlite.prepare(`pragma ${name}`).get();
  return row === null || typeof row !== "object" ? undefined : Object.values(row)[0];
}

function databaseOf(sqlite: DatabaseSyncInstance): Database {
  const asking = new Kysely<Tables>({ dialect: sqliteDialect(sqlite) });
  return {
    kind: "SQLite",
    read: (work) => told(() => work(asking)),
    change: (work) => told(() => asking.transaction().execute(work)),
    isTaken: isTakenInSqlite,
    forgetErased: () => told(() => emptyLog(asking)),
    integrity: () => told(() => integrityOf(asking)),
    backup: (path) => told(() => backupSqlite(asking, path)),
    // A transaction that changes nothing still needs the file to be there, writable, and its lock.
    ping: () => told(() => asking.transaction().execute(async () => undefined)),
    close: () => told(() => asking.destroy()),
  };
}

/**
 * What was deleted is overwritten in the file itself (secure_delete), but the write-ahead log holds earlier copies of its pages:
 * all of it is brought into the file and the log cut to nothing. Another program that reads just then is waited for.
 */
async function emptyLog(asking: Asking): Promise<void> {
  for (let tries = 0; tries < 100; tries++) {
    const { rows } = await sql<{ busy: number }>`pragma wal_checkpoint(truncate)`.execute(asking);
    if (rows[0].busy === 0) return;
    await wait(100);
  }
  throw new StoreUnavailable("locked");
}

async function integrityOf(asking: Asking): Promise<readonly string[]> {
  const whole = await sql<{ integrity_check: string }>`pragma integrity_check`.execute(asking);
  const keys = await sql<{ table: string; parent: string }>`pragma foreign_key_check`.execute(asking);
  return [
    ...whole.rows.map((row) => row.integrity_check).filter((says) => says !== "ok"),
    ...keys.rows.map(({ table, parent }) => `a row of ${table} names a row of ${parent} that is not there`),
  ];
}

async function told<Answer>(work: () => Promise<Answer>): Promise<Answer> {
  try {
    return await work();
  } catch (error) {
    const trouble = sqliteTrouble(error);
    throw trouble === null ? error : new StoreUnavailable(trouble, { cause: error });
  }
}
