/**
 * A database, opened: what the queries need of it, whichever of the two it is.
 *
 * `read` and `change` take the work and do it; whatever the database complains of comes out as StoreUnavailable where the world is
 * to blame (trouble.ts of each), and as it is where a programmer is.
 */
import type { Kysely, Transaction } from "kysely";
import type { Tables } from "./tables.ts";

export type DatabaseKind = "SQLite" | "PostgreSQL";

/** To ask: the database itself, or a transaction under way. */
export type Asking = Kysely<Tables>;
/** To change something: only ever within a transaction. */
export type Changing = Transaction<Tables>;

export type Database = {
  readonly kind: DatabaseKind;
  read<Answer>(work: (asking: Asking) => Promise<Answer>): Promise<Answer>;
  /** All of it or nothing; on disk once it resolves. */
  change<Answer>(work: (changing: Changing) => Promise<Answer>): Promise<Answer>;
  /** Whether a row was refused since another holds the same key. */
  isTaken(error: unknown): boolean;
  /** Makes what was erased from `player_notes` go from the database's files, too. */
  forgetErased(): Promise<void>;
  /** What the database itself finds wrong with its files; empty where all is well. */
  integrity(): Promise<readonly string[]>;
  backup(path: string): Promise<void>;
  ping(): Promise<void>;
  close(): Promise<void>;
};
