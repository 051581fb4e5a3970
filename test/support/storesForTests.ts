/**
 * Both kinds of store, fresh and empty, for tests that must hold on either.
 *
 *     describeOnBothStores("an instrument", (stores) => {
 *       test("is found by its number", async () => {
 *         const store = await stores.open();
 *
 * What a test opened is closed after it; a place (a folder, a database) may be opened more than once, as two servers would.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DatabaseSync } from "@photostructure/sqlite";
import pg from "pg";
import { afterEach, describe, inject } from "vitest";
import { openStore, type Where } from "../../server/records/openStore.ts";
import type { Store } from "../../server/records/store.ts";

export type StoresForTests = {
  readonly kind: Store["kind"];
  newPlace(): Promise<Where>;
  /** In a new place without one; `now` is the store's clock. */
  open(at?: { readonly where?: Where; readonly now?: () => Date }): Promise<Store>;
};

export function describeOnBothStores(name: string, body: (stores: StoresForTests) => void): void {
  describe.each(["SQLite", "PostgreSQL"] as const)(`${name}, kept in %s`, (kind) => body(storesForTests(kind)));
}

/** Within a `describe`: what was opened is closed after each of its tests. */
export function storesForTests(kind: Store["kind"]): StoresForTests {
  const opened: Store[] = [];
  const folders: string[] = [];
  afterEach(async () => {
    await Promise.all(opened.splice(0).map((store) => store.close()));
    for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
  });
  const newPlace = async (): Promise<Where> => {
    if (kind === "PostgreSQL") return { databaseUrl: await freshPostgres() };
    const folder = mkdtempSync(join(tmpdir(), "boardtrue-records-"));
    folders.push(folder);
    return { folder };
  };
  return {
    kind,
    newPlace,
    async open({ where, now } = {}) {
      const clock = now === undefined ? {} : { now };
      const store = await openStore(where ?? (await newPlace()), { version: "test", ...clock });
      opened.push(store);
      return store;
    },
  };
}

/** One statement past the store, on the database itself: to damage what is there, or to look at it. The rows. */
export async function askDatabase(where: Where, statement: string): Promise<readonly Record<string, unknown>[]> {
  if ("databaseUrl" in where) {
    const client = new pg.Client({ connectionString: where.databaseUrl });
    await client.connect();
    try {
      return (await client.query<Record<string, unknown>>(statement)).rows;
    } finally {
      await client.end();
    }
  }
  if (!("folder" in where)) throw new Error("a store in memory has no other door");
  const sqlite = new DatabaseSync(join(where.folder, "records.sqlite"), { timeout: 1000 });
  try {
    return sqlite.prepare(statement).all();
  } finally {
    sqlite.close();
  }
}

/** The address of a new, empty PostgreSQL database; the first call of a run starts the server. */
export async function freshPostgres(): Promise<string> {
  const answer = await fetch(inject("freshPostgresAt"));
  const said = await answer.text();
  if (!answer.ok) throw new Error(said);
  return said;
}
