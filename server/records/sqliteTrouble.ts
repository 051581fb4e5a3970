/**
 * What SQLite complains of, in the store's words: an error in, the trouble out; null where a programmer is to blame.
 *
 * Result codes from SQLite's own list (sqlite.org/rescode.html); the lowest byte of an extended code is the plain one.
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
  return code !== null && uniqueKey.includes(code);
}

function codeOf(error: unknown): number | null {
  return error instanceof Error && "errcode" in error && typeof error.errcode === "number" ? error.errcode : null;
}
