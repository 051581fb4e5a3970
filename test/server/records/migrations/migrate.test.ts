/** Migrations: the same tables in both databases, done once however many open the store, whole or not at all, never by an older version. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { sql } from "kysely";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { Database } from "../../../../server/records/database.ts";
import { type Migration, migrate } from "../../../../server/records/migrations/migrate.ts";
import { openPostgres } from "../../../../server/records/openPostgres.ts";
import { openSqlite } from "../../../../server/records/openSqlite.ts";
import { instrumentGiven } from "../../../support/recordsForTests.ts";
import { askDatabase, describeOnBothStores, freshPostgres, storesForTests } from "../../../support/storesForTests.ts";

const now = () => "2026-11-25T09:30:00.000Z";

describe.each(["SQLite", "PostgreSQL"] as const)("a migration of %s", (kind) => {
  let folder: string;
  let database: Database;
  let openAnother: () => Promise<Database>;
  const others: Database[] = [];

  beforeEach(async () => {
    folder = mkdtempSync(join(tmpdir(), "boardtrue-records-"));
    const databaseUrl = kind === "PostgreSQL" ? await freshPostgres() : "";
    openAnother = () => (kind === "PostgreSQL" ? openPostgres(databaseUrl) : openSqlite({ folder }));
    database = await openAnother();
  });
  afterEach(async () => {
    await Promise.all([database, ...others.splice(0)].map((one) => one.close()));
    rmSync(folder, { recursive: true, force: true });
  });

  const makes = (table: string): Migration => ({
    title: `makes ${table}`,
    statements: () => [
      sql`create table ${sql.table(table)} (a integer)`,
      sql`insert into ${sql.table(table)} values (1)`,
    ],
  });
  const rowsOf = (table: string) =>
    database.read(
      async (asking) => (await sql<{ a: number }>`select a from ${sql.table(table)}`.execute(asking)).rows.length,
    );

  test("is done once, and those that came since are done after it", async () => {
    await migrate(database, "1", now, [makes("one")]);
    await migrate(database, "1", now, [makes("one")]);
    await migrate(database, "2", now, [makes("one"), makes("two"), makes("three")]);
    expect([await rowsOf("one"), await rowsOf("two"), await rowsOf("three")]).toEqual([1, 1, 1]);
    const done = await database.read((asking) =>
      asking.selectFrom("migrations").selectAll().orderBy("number").execute(),
    );
    expect(done).toEqual([
      { number: 1, title: "makes one", version: "1", applied_at: now() },
      { number: 2, title: "makes two", version: "2", applied_at: now() },
      { number: 3, title: "makes three", version: "2", applied_at: now() },
    ]);
  });

  test("that fails leaves nothing of itself, and what was done before it stands", async () => {
    const failing: Migration = {
      title: "fails",
      statements: () => [sql`create table half (a integer)`, sql`insert into nowhere values (1)`],
    };
    await expect(migrate(database, "1", now, [makes("one"), failing])).rejects.toThrow("nowhere");
    await expect(rowsOf("half")).rejects.toThrow("half");
    await migrate(database, "2", now, [makes("one"), makes("two")]);
    expect([await rowsOf("one"), await rowsOf("two")]).toEqual([1, 1]);
  });

  test("by many programs that start at the same moment is done once", async () => {
    for (let i = 0; i < 5; i++) others.push(await openAnother());
    await Promise.all([database, ...others].map((one) => migrate(one, "1", now, [makes("one"), makes("two")])));
    expect([await rowsOf("one"), await rowsOf("two")]).toEqual([1, 1]);
  });

  test("by a newer version is told in words, and nothing is changed", async () => {
    await migrate(database, "2", now, [makes("one"), makes("two")]);
    await expect(migrate(database, "1", now, [makes("one")])).rejects.toThrow("a newer version of Boardtrue");
    expect(await rowsOf("two")).toBe(1);
  });
});

describe("the tables", () => {
  const [sqlite, postgres] = (["SQLite", "PostgreSQL"] as const).map(storesForTests);

  test("have the same names, columns and types in both databases", async () => {
    const [one, other] = await Promise.all(
      [sqlite, postgres].map(async (stores) => {
        const where = await stores.newPlace();
        await stores.open({ where });
        const columns = await askDatabase(where, stores.kind === "SQLite" ? columnsOfSqlite : columnsOfPostgres);
        return columns.map(({ relation, name, type, needed, key }) =>
          [relation, name, typeIn[String(type)], Number(needed), Number(key)].join(" "),
        );
      }),
    );
    expect(one).toContain("visits instrument_id text 1 0");
    expect(one).toEqual(other);
  });

  test("have the same keys, indexes and references in both", async () => {
    const [one, other] = await Promise.all(
      [sqlite, postgres].map(async (stores) => {
        const where = await stores.newPlace();
        await stores.open({ where });
        const named = await askDatabase(where, stores.kind === "SQLite" ? indexesOfSqlite : indexesOfPostgres);
        const references = await askDatabase(
          where,
          stores.kind === "SQLite" ? referencesOfSqlite : referencesOfPostgres,
        );
        return { indexes: named.map(({ name }) => name), references: references.map(({ says }) => says) };
      }),
    );
    expect(one.references).toContain("visits.instrument_id -> instruments.id");
    expect(one).toEqual(other);
  });
});

const typeIn: Readonly<Record<string, string>> = {
  TEXT: "text",
  INTEGER: "whole",
  REAL: "real",
  BLOB: "bytes",
  text: "text",
  integer: "whole",
  "double precision": "real",
  bytea: "bytes",
};
const columnsOfSqlite = `
  select m.name as relation, c.name as name, c.type as type, c."notnull" or c.pk > 0 as needed, c.pk > 0 as key
  from sqlite_schema m, pragma_table_info(m.name) c where m.type = 'table' order by 1, 2`;
const columnsOfPostgres = `
  select c.table_name as relation, c.column_name as name, c.data_type as type, (c.is_nullable = 'NO')::int as needed,
    (exists (select from information_schema.key_column_usage k join information_schema.table_constraints t using (constraint_name)
      where t.constraint_type = 'PRIMARY KEY' and k.table_name = c.table_name and k.column_name = c.column_name))::int as key
  from information_schema.columns c where c.table_schema = 'public' order by c.table_name collate "C", c.column_name collate "C"`;
const indexesOfSqlite = `select name from sqlite_schema where type = 'index' and sql is not null order by 1`;
const indexesOfPostgres = `
  select indexname as name from pg_indexes where schemaname = 'public' and indexname not like '%_pkey' and indexname not like '%_key'
  order by indexname collate "C"`;
const referencesOfSqlite = `
  select m.name || '.' || f."from" || ' -> ' || f."table" || '.' || f."to" as says
  from sqlite_schema m, pragma_foreign_key_list(m.name) f where m.type = 'table' order by 1`;
const referencesOfPostgres = `
  select k.table_name || '.' || k.column_name || ' -> ' || u.table_name || '.' || u.column_name as says
  from information_schema.referential_constraints r
  join information_schema.key_column_usage k on k.constraint_name = r.constraint_name
  join information_schema.constraint_column_usage u on u.constraint_name = r.constraint_name
  order by (k.table_name || '.' || k.column_name || ' -> ' || u.table_name || '.' || u.column_name) collate "C"`;

describeOnBothStores("a store that is opened by an older version", (stores) => {
  test("is refused in words, and what it holds stays", async () => {
    const where = await stores.newPlace();
    const store = await stores.open({ where });
    await store.addInstrument(instrumentGiven("C-07"));
    await askDatabase(where, "insert into migrations values (99, 'of tomorrow', '9.0', '2030-01-01')");
    await expect(stores.open({ where })).rejects.toThrow("newer version");
    expect(await store.instrument("C-07")).not.toBeNull();
  });
});
