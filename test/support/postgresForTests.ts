/**
 * A real PostgreSQL for the tests: started when the first test asks for a database, once a run, and stopped at its end.
 *
 * This is the runner's global set-up: it stays in the runner's process and listens on 127.0.0.1 for test files that run in others:
 * a request in, the address of a fresh, empty database out (see storesForTests.ts). Nothing is started where no test asks.
 */
import { createServer } from "node:http";
import type { TestProject } from "vitest/node";
import { listening, type RunningPostgres, startPostgres } from "./startPostgres.ts";

declare module "vitest" {
  interface ProvidedContext {
    /** Where a fresh PostgreSQL database is to be had. */
    freshPostgresAt: string;
  }
}

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  let running: Promise<RunningPostgres> | null = null;
  const giver = createServer((_request, response) => {
    // Tests may ask much later again: by then an idle connection would have been closed under them.
    response.setHeader("connection", "close");
    running ??= startPostgres();
    running
      .then((postgres) => postgres.freshDatabase())
      .then(
        (address) => response.end(address),
        (error: unknown) => response.writeHead(500).end(error instanceof Error ? error.message : String(error)),
      );
  });
  project.provide("freshPostgresAt", `http://127.0.0.1:${await listening(giver)}/`);
  return async () => {
    giver.close();
    await running?.then(
      (postgres) => postgres.stop(),
      () => undefined,
    );
  };
}
