/**
 * PostgreSQL, opened: postgres://… in, the database out.
 *
 * Up to ten connections. One that broke is thrown away, and the next call makes a new one: a server that went and came back is no
 * reason to start again. Every wait has an end. A commit counts only once it is on the server's disk, however that is set there.
 */
import { Kysely, PostgresDialect, type PostgresPool, type PostgresPoolClient, sql } from "kysely";
import pg from "pg";
import type { Asking, Database } from "./database.ts";
import { isTakenInPostgres, postgresCode, postgresTrouble } from "./postgresTrouble.ts";
import { StoreUnavailable, StoreUnusable } from "./store.ts";
import type { Tables } from "./tables.ts";

const connections = 10;
const connectingMs = 10_000;
const lockMs = 10_000;
const statementMs = 30_000;
/** The server ends a statement itself; this is for a server that is no longer there to do so. */
const noAnswerMs = statementMs + 5_000;

export async function openPostgres(databaseUrl: string): Promise<Database> {
  const pool = new pg.Pool({
    connectionString: databaseUrl,
    application_name: "boardtrue",
    max: connections,
    connectionTimeoutMillis: connectingMs,
    lock_timeout: lockMs,
    statement_timeout: statementMs,
    idle_in_transaction_session_timeout: statementMs,
    query_timeout: noAnswerMs,
    keepAlive: true,
    onConnect: (client) => client.query("set synchronous_commit = on"),
  });
  // A connection that breaks while nobody uses it: the pool drops it by itself, and without a listener the process would end.
  pool.on("error", () => undefined);
  const asking = new Kysely<Tables>({ dialect: new PostgresDialect({ pool: watched(pool) }) });
  try {
    await looksRight(asking);
  } catch (error) {
    await asking.destroy();
    throw error;
  }
  return databaseOf(asking);
}

/** Each connection that is handed out is listened to, and thrown away if it broke. */
function watched(pool: pg.Pool): PostgresPool {
  return {
    async connect(): Promise<PostgresPoolClient> {
      const client = await pool.connect();
      let isBroken = false;
      const broke = () => {
        isBroken = true;
      };
      client.on("error", broke);
      return {
        query: queryOf(client, broke),
        release: (isDiscarded) => {
          client.off("error", broke);
          client.release(isBroken || isDiscarded);
        },
      };
    },
    end: () => pool.end(),
  };
}

/** Only plain statements: nothing is read with a cursor here. */
function queryOf(client: pg.PoolClient, broke: () => void): PostgresPoolClient["query"] {
  const query: unknown = async (statement: string, parameters: unknown[]) => {
    try {
      return await client.query(statement, parameters);
    } catch (error) {
      if (postgresTrouble(error) === "unreachable") broke();
      throw error;
    }
  };
  return query as PostgresPoolClient["query"];
}

/** A mistake in the address or in how the database was made is told once, in words, when it is opened. */
async function looksRight(asking: Asking): Promise<void> {
  try {
    const { rows } = await sql<{ server_encoding: string }>`show server_encoding`.execute(asking);
    if (rows[0].server_encoding === "UTF8") return;
    throw new StoreUnusable(
      `The PostgreSQL database of DATABASE_URL keeps its texts in ${rows[0].server_encoding}. Make one with the encoding UTF8.`,
    );
  } catch (error) {
    const code = postgresCode(error) ?? "";
    if (code.startsWith("28") || code === "3D000") {
      throw new StoreUnusable(
        `PostgreSQL is there, but does not let us in: ${error instanceof Error ? error.message : code}. Check user, password and name of the database in DATABASE_URL.`,
        { cause: error },
      );
    }
    throw inWords(error);
  }
}

function databaseOf(asking: Kysely<Tables>): Database {
  return {
    kind: "PostgreSQL",
    read: (work) => told(() => work(asking)),
    change: (work) => told(() => asking.transaction().execute(work)),
    isTaken: isTakenInPostgres,
    // Writes the table anew into another file and drops the old one: an ordinary vacuum would leave the bytes where they were.
    forgetErased: () =>
      told(async () => {
        await sql`vacuum full player_notes`.execute(asking);
      }),
    integrity: async () => [],
    backup: async () => {
      throw new StoreUnusable(
        "Records in PostgreSQL are copied with its own tools: pg_dump, or the copies its keeper makes anyway.",
      );
    },
    ping: () =>
      told(async () => {
        const { rows } = await sql<{ transaction_read_only: string }>`show transaction_read_only`.execute(asking);
        if (rows[0].transaction_read_only === "on") throw new StoreUnavailable("read-only");
      }),
    close: () => told(() => asking.destroy()),
  };
}

async function told<Answer>(work: () => Promise<Answer>): Promise<Answer> {
  try {
    return await work();
  } catch (error) {
    throw inWords(error);
  }
}

function inWords(error: unknown): unknown {
  const trouble = postgresTrouble(error);
  return trouble === null ? error : new StoreUnavailable(trouble, { cause: error });
}
