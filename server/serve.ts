/**
 * Starts the server as a program does: from the environment's words, with the address and the example boards' verdicts
 * said aloud, until a signal stops it.
 *
 * PORT (4870), HOST and BOARDTRUE_SIGN_IN (see reach.ts), BOARDTRUE_DATA or DATABASE_URL (where the records are: whereRecords.ts),
 * BOARDTRUE_UPLOAD_LIMIT (bytes of one request, 64 MiB). Throws CantStart, with words for whoever set them, where it can't start with these.
 */
import { createReadStream } from "node:fs";
import { fileURLToPath } from "node:url";
import pino, { type Logger } from "pino";
import { builtPage } from "./buildPage.ts";
import { CantStart, type Environment } from "./cantStart.ts";
import { faultInWords } from "./core/fault.ts";
import { outlookOf } from "./core/history/historyOf.ts";
import { examinerFor, type StartExamining } from "./examiner.ts";
import { answeringHere, startAnsweringApart } from "./examinerApart.ts";
import { type Example, loadExamples } from "./exampleBoards.ts";
import { loadHistories } from "./exampleHistories.ts";
import { createApp } from "./http/app.ts";
import { type Listening, listen } from "./http/listen.ts";
import { createLog } from "./http/log.ts";
import { storeTroubles } from "./http/storeTroubles.ts";
import { loadInstrumentTable } from "./instrumentTable.ts";
import { seedLoanStore } from "./keeping/loanStore.ts";
import { uploadLimitBytesFrom, wholeNumberFrom } from "./numberFromEnvironment.ts";
import { placeInWords, reachFrom, refuseWithoutPassword } from "./reach.ts";
import { openStore } from "./records/openStore.ts";
import { type Store, StoreUnavailable, StoreUnusable } from "./records/store.ts";
import { verdictLine } from "./reports/verdictLine.ts";
import { version } from "./version.ts";
import { placeOfRecordsInWords, type RecordsPlace, whereRecords } from "./whereRecords.ts";

export { CantStart, type Environment };

const folder = (path: string) => fileURLToPath(new URL(path, import.meta.url));

export async function serve(environment: Environment, say: (line: string) => void): Promise<void> {
  const reach = reachFrom(environment);
  const port = wholeNumberFrom(environment, "PORT", 4870, { least: 0, most: 65_535 });
  const uploadLimitBytes = uploadLimitBytesFrom(environment);
  const log = createLog(pino.destination(2));
  const table = loadInstrumentTable();
  const examples = loadExamples(folder("../data/examples"));
  const startExamining = examinerFor(table, version);
  const webFolder = await builtPage(folder("../web"));
  const place = whereRecords(environment);
  const store = await openRecords(place);
  const invented = await openStore({ memory: true }, { version });
  const stopped = new AbortController();
  const closeAll = async () => {
    stopped.abort();
    await Promise.all([store.close(), invented.close()]);
  };
  try {
    await refuseWithoutPassword(reach, store);
    await store.renewOutlooks(outlookOf, version);
    const app = createApp({
      startExamining,
      startAnsweringApart,
      table,
      examples,
      webFolder,
      version,
      uploadLimitBytes,
      store,
      invented,
      keys: reach.asksForPasswords ? store : null,
      log,
    });
    const listening = await listenOrSay(() => listen(app, { host: reach.host, port }), reach.host, port);
    stopOnSignal(listening, closeAll);
    say(`Boardtrue ${version} at ${placeInWords(reach, listening.port)}`);
  } catch (error) {
    await closeAll();
    throw error;
  }
  say(`Records: ${placeOfRecordsInWords(place)}`);
  const examineHere = answeringHere(startExamining);
  const inTurn = <Made>(work: () => Promise<Made>) => work();
  const keeping = { store: invented, table, examineHere, examineApart: examineHere, inTurn, now: () => new Date() };
  seedLoanStore(keeping, loadHistories(folder("../data/examples/histories")), stopped.signal).catch(
    (error: unknown) => {
      if (!stopped.signal.aborted) log.error({ err: error }, "failed on the invented loan store");
    },
  );
  for (const example of examples) {
    say(`${example.number}  ${example.title}: ${await verdictOn(example, startExamining, log)}`);
  }
}

async function openRecords(place: RecordsPlace): Promise<Store> {
  try {
    return await openStore(place, { version });
  } catch (error) {
    if (error instanceof StoreUnusable) throw new CantStart(error.message);
    if (error instanceof StoreUnavailable) {
      throw new CantStart(`Records: ${placeOfRecordsInWords(place)}. ${storeTroubles[error.trouble].detail}`);
    }
    throw error;
  }
}

async function listenOrSay(start: () => Promise<Listening>, host: string, port: number): Promise<Listening> {
  try {
    return await start();
  } catch (error) {
    const code = error instanceof Error && "code" in error ? error.code : null;
    if (code === "EADDRINUSE") {
      throw new CantStart(
        `Port ${port} is taken by another program, or by another Boardtrue. Stop it, or choose another port: PORT=${port === 65_535 ? 4870 : port + 1} npm start`,
      );
    }
    if (code === "EACCES") {
      throw new CantStart(`Port ${port} may not be used here. Choose one above 1023: PORT=4870 npm start`);
    }
    if (code === "EADDRNOTAVAIL" || code === "ENOTFOUND" || code === "EAI_AGAIN" || code === "EINVAL") {
      throw new CantStart(
        `HOST=${host} is no name or address of this machine. Take one that it has, 0.0.0.0 for all of them, or leave HOST unset.`,
      );
    }
    throw error;
  }
}

/** The first signal lets answers under way end; a second one finds no listener any more and ends the program at once. */
function stopOnSignal(listening: Listening, closeAll: () => Promise<void>): void {
  for (const signal of ["SIGTERM", "SIGINT"] as const) {
    process.once(signal, () => void listening.stop().then(closeAll));
  }
}

/** An example that the program fails on is told as such; the server goes on. */
async function verdictOn(example: Example, startExamining: StartExamining, log: Logger): Promise<string> {
  try {
    const examining = startExamining();
    for await (const chunk of createReadStream(example.readingsPath)) examining.readings.push(chunk);
    if (example.thicknessPath !== null) {
      const thickness = examining.openThickness();
      for await (const chunk of createReadStream(example.thicknessPath)) thickness.push(chunk);
    }
    if (example.railPath !== null) {
      const rail = examining.openRail();
      for await (const chunk of createReadStream(example.railPath)) rail.push(chunk);
    }
    const examined = examining.finish([]);
    return examined.outcome === "examined"
      ? verdictLine(examined.examination)
      : examined.faults.map(faultInWords).join(" ");
  } catch (error) {
    log.error({ err: error }, "failed on an example");
    return "the program failed on it; the log has the cause";
  }
}
