/**
 * What SQLite complains of, in the store's words: an error in, the trouble out; null where a programmer is to blame.
 *
 * Result codes from SQLite's own list (sqlite.org/rescode.html); the lowest byte of an extended code is the plain one. Where the driver leaves
 * the code out (it does for a query that returns all its rows), SQLite's own text for it stands in the message: the words of sqlite3_errstr(),
 * in English whatever the system's language.
 */
import type { StoreTrouble } from "./store.ts";

const busy = 5;
const locked = 6;
const troubles: ReadonlyMap<number, StoreTrouble> = new Map([
  [3, "unreachable"], // PERM
  [busy, "locked"],
  [locked, "locked"],
  [8, "read-only"],
  [10, "unreachable"], // IOERR
  [11, "damaged"],
  [13, "full"],
  [14, "unreachable"], // CANTOPEN
  [15, "locked"], // PROTOCOL: the lock of the write-ahead log could not be had
  [22, "unreachable"], // NOLFS
  [23, "unreachable"], // AUTH
  [26, "damaged"], // NOTADB
]);
const texts: ReadonlyMap<string, number> = new Map([
  ["access permission denied", 3],
  ["database is locked", busy],
  ["database table is locked", locked],
  ["attempt to write a readonly database", 8],
  ["disk I/O error", 10],
  ["database disk image is malformed", 11],
  ["database or disk is full", 13],
  ["unable to open database file", 14],
  ["locking protocol", 15],
  ["large file support is disabled", 22],
  ["authorization denied", 23],
  ["file is not a database", 26],
]);
const uniqueKey = [2067, 1555]; // CONSTRAINT_UNIQUE, CONSTRAINT_PRIMARYKEY

export function sqliteTrouble(error: unknown): StoreTrouble | null {
  const code = codeOf(error);
  return code === null ? null : (troubles.get(code & 0xff) ?? null);
}

/** Whether another connection holds the lock just now. */
export function isSqliteBusy(error: unknown): boolean {
  return sqliteTrouble(error) === "locked";
}

export function isTakenInSqlite(error: unknown): boolean {
  const code = codeOf(error);
  if (code !== null) return uniqueKey.includes(code);
  return isSqliteError(error) && error.message.startsWith("UNIQUE constraint failed");
}

function codeOf(error: unknown): number | null {
  if (!isSqliteError(error)) return null;
  if ("errcode" in error && typeof error.errcode === "number") return error.errcode;
  return texts.get(error.message) ?? null;
}

function isSqliteError(error: unknown): error is Error {
  return error instanceof Error && "code" in error && error.code === "ERR_SQLITE_ERROR";
}
