/**
 * The server's app: every address it answers, put together from what it is given. It never listens and reads no
 * environment, so tests and the program make the same one.
 *
 * Errors: every refusal is a problem of problems.ts; a failure of the program is logged and answered by its id only.
 */
import compression from "compression";
import express, { type Express } from "express";
import type { Logger } from "pino";
import type { InstrumentTable } from "../core/board/instrumentTable.ts";
import type { StartExamining } from "../examiner.ts";
import { answeringHere, type StartAnswering } from "../examinerApart.ts";
import type { Example } from "../exampleBoards.ts";
import type { Store } from "../records/store.ts";
import { gate } from "./access/gate.ts";
import { type RequestsPerMinute, requestLimits, usualRequestsPerMinute } from "./access/requestLimits.ts";
import type { AccessStore } from "./access/sessions.ts";
import { anyOneHost, ownHostOnly, ownOriginOnly } from "./ownAddressOnly.ts";
import { page } from "./page.ts";
import { pageRules } from "./pageRules.ts";
import { answerWithProblem, noSuchAddress } from "./problems.ts";
import { logRequests } from "./requestLog.ts";
import { archiveRoutes } from "./routes/archive.ts";
import { descriptionRoute } from "./routes/description.ts";
import { examinationsRoute } from "./routes/examinations.ts";
import { examplesRoute } from "./routes/examples.ts";
import { healthRoute } from "./routes/health.ts";
import { kindsRoute } from "./routes/kinds.ts";
import { recordsRoutes } from "./routes/records/index.ts";
import { sessionRoute } from "./routes/session.ts";
import { uploadsOf } from "./uploads.ts";

export type AppParts = {
  readonly startExamining: StartExamining;
  /** For long uploads; without it they are examined here as well. */
  readonly startAnsweringApart?: StartAnswering;
  readonly table: InstrumentTable;
  readonly examples: readonly Example[];
  /** Folder of the built page; it may be missing, then `/` is not found. */
  readonly webFolder: string;
  readonly version: string;
  /** Of one whole request. */
  readonly uploadLimitBytes: number;
  /** From one address; generous, it only stops a loop that ran wild. */
  readonly examinationsPerMinute?: number;
  /** The workshop's own records. */
  readonly store: Store;
  /** The invented loan store. */
  readonly invented: Store;
  /** Where passwords and sessions are kept; null (or left out): this machine only, no passwords, everybody is the owner. */
  readonly keys?: AccessStore | null;
  /** From one address, where passwords are asked for. */
  readonly requestsPerMinute?: RequestsPerMinute;
  /** The clock on the wall. */
  readonly now?: () => Date;
  readonly log: Logger;
};

export function createApp(parts: AppParts): Express {
  const { startExamining, table, examples, webFolder, version, uploadLimitBytes, log } = parts;
  const { examinationsPerMinute = 1200, requestsPerMinute = usualRequestsPerMinute } = parts;
  const { keys = null, now = () => new Date() } = parts;
  const app = express();
  app.disable("x-powered-by");
  app.use(logRequests(log));
  app.use(pageRules());
  if (keys === null) app.use(ownHostOnly, ownOriginOnly("http"));
  else app.use(anyOneHost, ownOriginOnly("http", "https"), requestLimits(requestsPerMinute));
  app.use(compression());
  app.use(healthRoute(version, parts.store));
  app.use(sessionRoute(keys, now));
  // The page's own files are open to all; of the API nothing but the two above is.
  app.use(["/api", "/invented/api"], gate(keys, now));
  app.use(kindsRoute(table));
  app.use(examplesRoute(examples));
  const answerHere = answeringHere(startExamining);
  const answerApart = parts.startAnsweringApart ?? answerHere;
  const uploads = uploadsOf(uploadLimitBytes);
  app.use(examinationsRoute({ answerHere, answerApart, uploads, examinationsPerMinute }));
  const keeping = { table, examineHere: answerHere, examineApart: answerApart, inTurn: uploads.inTurn, now, uploads };
  app.use("/api", recordsRoutes({ ...keeping, store: parts.store }));
  app.use("/api", archiveRoutes({ store: parts.store, table, now, uploadLimitBytes, takesIn: true }));
  app.use("/invented/api", recordsRoutes({ ...keeping, store: parts.invented }));
  app.use("/invented/api", archiveRoutes({ store: parts.invented, table, now, uploadLimitBytes, takesIn: false }));
  app.use(descriptionRoute(version, uploadLimitBytes));
  app.use(page(webFolder));
  app.use(noSuchAddress);
  app.use(answerWithProblem(log));
  return app;
}
