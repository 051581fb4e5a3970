/** SQLite's complaints, made for real and by every way of asking: some ways leave out the code, and none may pass for a failure of the program. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DatabaseSync } from "@photostructure/sqlite";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { isTakenInSqlite, sqliteTrouble } from "../../../server/records/sqliteTrouble.ts";

let folder: string;
let sqlite: InstanceType<typeof DatabaseSync>;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "trouble-"));
  sqlite = new DatabaseSync(join(folder, "a.sqlite"));
  sqlite.exec("pragma journal_mode = wal; create table boards (number text unique, bytes blob)");
});
afterEach(() => {
  sqlite.close();
  rmSync(folder, { recursive: true });
});

const ways = ["run", "get", "all"] as const;

function complaint(work: () => unknown): unknown {
  try {
    work();
  } catch (error) {
    return error;
  }
  throw new Error("SQLite did not complain");
}

describe.each(ways)("asked by %s", (way) => {
  const insert = (number: string, bytes: number) =>
    sqlite.prepare("insert into boards values (?, zeroblob(?))")[way](number, bytes);

  test("a full disk is told", () => {
    sqlite.exec("pragma max_page_count = 20");
    expect(sqliteTrouble(complaint(() => insert("C-07", 200_000)))).toBe("full");
  });

  test("another program's lock is told", () => {
    const other = new DatabaseSync(join(folder, "a.sqlite"));
    other.exec("begin immediate");
    expect(sqliteTrouble(complaint(() => insert("C-07", 1)))).toBe("locked");
    other.exec("rollback");
    other.close();
  });

  test("a store that may only be read is told", () => {
    sqlite.exec("pragma query_only = on");
    expect(sqliteTrouble(complaint(() => insert("C-07", 1)))).toBe("read-only");
  });

  test("a number that is taken is no trouble of the store's", () => {
    insert("C-07", 1);
    const error = complaint(() => insert("C-07", 1));
    expect([isTakenInSqlite(error), sqliteTrouble(error)]).toEqual([true, null]);
  });
});

test("a mistake of the program's own is no trouble of the store's", () => {
  expect(sqliteTrouble(complaint(() => sqlite.prepare("select nothing from boards")))).toBeNull();
  expect(sqliteTrouble(new Error("database is locked"))).toBeNull();
  expect(isTakenInSqlite(new Error("UNIQUE constraint failed: boards.number"))).toBe(false);
});
