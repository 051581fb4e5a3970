/**
 * The few words in which the two databases' tables differ: types of columns, the end of a table, and the refusal to change or delete.
 *
 * Text is compared byte by byte in both, so that both sort the same, whatever the machine's language.
 */
import { type RawBuilder, sql } from "kysely";
import type { DatabaseKind } from "../database.ts";

export type Columns = {
  readonly text: RawBuilder<unknown>;
  readonly whole: RawBuilder<unknown>;
  readonly real: RawBuilder<unknown>;
  readonly bytes: RawBuilder<unknown>;
  /** After the closing bracket of a table. */
  readonly end: RawBuilder<unknown>;
};

export function columnsOf(kind: DatabaseKind): Columns {
  return kind === "SQLite"
    ? { text: sql`text`, whole: sql`integer`, real: sql`real`, bytes: sql`blob`, end: sql`strict` }
    : {
        text: sql`text collate "C"`,
        whole: sql`integer`,
        real: sql`double precision`,
        bytes: sql`bytea`,
        end: sql``,
      };
}

/** From now on the database itself refuses to delete a row of `table`, and to change one if `unchanging`. */
export function refusals(kind: DatabaseKind, table: string, unchanging: boolean): readonly RawBuilder<unknown>[] {
  const acts = unchanging ? ["delete", "update"] : ["delete"];
  if (kind === "SQLite") {
    return acts.map(
      (act) =>
        sql`create trigger ${sql.ref(`${table}_keep_from_${act}`)} before ${sql.raw(act)} on ${sql.table(table)}
          begin select raise(abort, ${sql.lit(`${table} are kept for ever`)}); end`,
    );
  }
  return [
    sql`create or replace function kept_for_ever() returns trigger language plpgsql as
      $$ begin raise exception '% are kept for ever', tg_table_name; end $$`,
    ...acts.map(
      (act) =>
        sql`create trigger ${sql.ref(`${table}_keep_from_${act}`)} before ${sql.raw(act)} on ${sql.table(table)}
          for each row execute function kept_for_ever()`,
    ),
    sql`create trigger ${sql.ref(`${table}_keep_from_truncate`)} before truncate on ${sql.table(table)}
      for each statement execute function kept_for_ever()`,
  ];
}
