/**
 * SQLite for kysely: one connection, taken in turns, and patience where another program holds the lock.
 *
 * SQLite waits for a lock by blocking the whole process, so it is let wait for 20 ms only; then we wait a little ourselves, while
 * others are served, and try again: up to ten seconds from when the turn was asked for, so that a long queue does not wait in a row.
 * A transaction begins as one that writes ("immediate"): one that began by reading could be told too late that it can't write.
 */
import { setTimeout as wait } from "node:timers/promises";
import type { DatabaseSyncInstance, StatementSyncInstance } from "@photostructure/sqlite";
import {
  CompiledQuery,
  type DatabaseConnection,
  type Dialect,
  type Driver,
  type QueryResult,
  SqliteAdapter,
  SqliteIntrospector,
  SqliteQueryCompiler,
} from "kysely";
import { isSqliteBusy, sqliteTrouble } from "./sqliteTrouble.ts";

export const blockingMs = 20;
const patienceMs = 10_000;
const betweenTriesMs = 25;
const statementsHeld = 200;

export function sqliteDialect(database: DatabaseSyncInstance): Dialect {
  return {
    createAdapter: () => new SqliteAdapter(),
    createDriver: () => new OneConnection(database),
    createIntrospector: (db) => new SqliteIntrospector(db),
    createQueryCompiler: () => new SqliteQueryCompiler(),
  };
}

/** Does `work` again while another program holds the lock, until `untilMs` (of the steady clock). */
export async function patiently<Answer>(work: () => Answer, untilMs = performance.now() + patienceMs): Promise<Answer> {
  for (;;) {
    try {
      return work();
    } catch (error) {
      if (!isSqliteBusy(error) || performance.now() >= untilMs) throw error;
    }
    await wait(betweenTriesMs * (0.5 + Math.random()));
  }
}

class OneConnection implements Driver {
  readonly #database: DatabaseSyncInstance;
  readonly #statements = new Map<string, StatementSyncInstance>();
  /** Settles when the one who has the connection now, or waits last for it, gives it back. */
  #lastTurn: Promise<void> = Promise.resolve();

  constructor(database: DatabaseSyncInstance) {
    this.#database = database;
  }

  async init(): Promise<void> {}

  async acquireConnection(): Promise<Turn> {
    const untilMs = performance.now() + patienceMs;
    const before = this.#lastTurn;
    let giveBack = () => {};
    this.#lastTurn = new Promise((resolve) => {
      giveBack = resolve;
    });
    await before;
    return new Turn(this.#database, this.#statements, untilMs, giveBack);
  }

  async beginTransaction(turn: DatabaseConnection): Promise<void> {
    await turn.executeQuery(CompiledQuery.raw("begin immediate"));
  }

  async commitTransaction(turn: DatabaseConnection): Promise<void> {
    await turn.executeQuery(CompiledQuery.raw("commit"));
  }

  async rollbackTransaction(turn: DatabaseConnection): Promise<void> {
    // SQLite has rolled back by itself where the disk was full, say.
    if (this.#database.isTransaction) await turn.executeQuery(CompiledQuery.raw("rollback"));
  }

  async releaseConnection(turn: DatabaseConnection): Promise<void> {
    if (turn instanceof Turn) turn.giveBack();
  }

  async destroy(): Promise<void> {
    await this.#lastTurn;
    this.#statements.clear();
    if (!this.#database.isOpen) return;
    this.#bringIn();
    this.#database.close();
  }

  /**
   * All of the write-ahead log into the file itself. SQLite does so when its last connection closes, but statements can't be given up
   * here and keep the connection half open; whoever then copied the file alone would copy an old one, or an empty one. Where
   * another program has the store open too, the log is still its own, and stays.
   */
  #bringIn(): void {
    try {
      this.#database.exec("pragma wal_checkpoint(truncate)");
    } catch (error) {
      // What is acknowledged is safe in the log; a store in trouble is told of by whoever uses it next.
      if (sqliteTrouble(error) === null) throw error;
    }
  }
}

/** The connection, for as long as one of those who share it has it. */
class Turn implements DatabaseConnection {
  readonly giveBack: () => void;
  readonly #database: DatabaseSyncInstance;
  readonly #statements: Map<string, StatementSyncInstance>;
  readonly #untilMs: number;

  constructor(
    database: DatabaseSyncInstance,
    statements: Map<string, StatementSyncInstance>,
    untilMs: number,
    giveBack: () => void,
  ) {
    this.#database = database;
    this.#statements = statements;
    this.#untilMs = untilMs;
    this.giveBack = giveBack;
  }

  executeQuery<Row>({ sql, parameters }: CompiledQuery): Promise<QueryResult<Row>> {
    // Within a transaction the lock is held already: trying a statement again there would hide a mistake.
    return patiently(() => this.#execute<Row>(sql, parameters), this.#database.isTransaction ? 0 : this.#untilMs);
  }

  // biome-ignore lint/correctness/useYield: nothing here reads row by row.
  async *streamQuery(): AsyncIterableIterator<never> {
    throw new Error("rows are not streamed: ask for a page of them");
  }

  #execute<Row>(sql: string, parameters: readonly unknown[]): QueryResult<Row> {
    const statement = this.#prepared(sql);
    if (statement.columns().length > 0) return { rows: statement.all(...parameters) };
    const { changes } = statement.run(...parameters);
    return { rows: [], numAffectedRows: BigInt(changes) };
  }

  #prepared(sql: string): StatementSyncInstance {
    const held = this.#statements.get(sql);
    if (held !== undefined) return held;
    if (this.#statements.size >= statementsHeld) this.#statements.clear();
    const statement = this.#database.prepare(sql);
    this.#statements.set(sql, statement);
    return statement;
  }
}
