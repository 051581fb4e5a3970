/**
 * What PostgreSQL, or the way to it, complains of, in the store's words: an error in, the trouble out; null where a programmer is to
 * blame.
 *
 * Codes from PostgreSQL's own list (appendix A, "PostgreSQL Error Codes"); those with letters are the operating system's. Where pg
 * itself gives up on a connection there is only its message.
 */
import type { StoreTrouble } from "./store.ts";

const troubles: readonly (readonly [code: RegExp, trouble: StoreTrouble])[] = [
  // A connection that failed or was refused, too many of them, a server that shuts down, starts up or lost its database.
  [/^(08...|28...|3D000|53300|57P0[1-5])$/, "unreachable"],
  [
    /^(ECONN(REFUSED|RESET|ABORTED)|EPIPE|ENOTFOUND|EAI_AGAIN|ETIMEDOUT|E(HOST|NET)UNREACH|ENOENT|EACCES)$/,
    "unreachable",
  ],
  // A lock not had in time, a statement out of time, a deadlock.
  [/^(55P03|57014|40P01|40001|25P0[34])$/, "locked"],
  [/^(53100|53200|53400)$/, "full"],
  [/^(25006|42501)$/, "read-only"],
  [/^(XX001|XX002|58030)$/, "damaged"],
];
const uniqueKey = "23505";
const connectionGivenUp =
  /^(Connection terminated|Query read timeout|timeout (exceeded when trying to connect|expired)|Client (was closed|has encountered a connection error)|Postgres connection has been discarded)/;

export function postgresTrouble(error: unknown): StoreTrouble | null {
  const code = postgresCode(error);
  const known = troubles.find(([pattern]) => code !== null && pattern.test(code));
  if (known !== undefined) return known[1];
  return error instanceof Error && connectionGivenUp.test(error.message) ? "unreachable" : null;
}

export function isTakenInPostgres(error: unknown): boolean {
  return postgresCode(error) === uniqueKey;
}

export function postgresCode(error: unknown): string | null {
  return error instanceof Error && "code" in error && typeof error.code === "string" ? error.code : null;
}
