/**
 * Starts the server as a program does: from the environment's words, with the address and the example boards' verdicts
 * said aloud, until a signal stops it.
 *
 * PORT (4870), HOST and BOARDTRUE_SIGN_IN (see reach.ts), BOARDTRUE_UPLOAD_LIMIT (bytes of one request, 64 MiB). Throws CantStart, with words
 * for whoever set them, where it can't start with these.
 */
import { createReadStream } from "node:fs";
import { fileURLToPath } from "node:url";
import pino, { type Logger } from "pino";
import { builtPage } from "./buildPage.ts";
import { CantStart, type Environment } from "./cantStart.ts";
import { faultInWords } from "./core/fault.ts";
import { examinerFor, type StartExamining } from "./examiner.ts";
import { startAnsweringApart } from "./examinerApart.ts";
import { type Example, loadExamples } from "./exampleBoards.ts";
import { createApp } from "./http/app.ts";
import { type Listening, listen } from "./http/listen.ts";
import { createLog } from "./http/log.ts";
import { loadInstrumentTable } from "./instrumentTable.ts";
import { placeInWords, type Reach, reachFrom } from "./reach.ts";
import { verdictLine } from "./reports/verdictLine.ts";
import { version } from "./version.ts";

export { CantStart, type Environment };

const folder = (path: string) => fileURLToPath(new URL(path, import.meta.url));

export async function serve(environment: Environment, say: (line: string) => void): Promise<void> {
  const reach = reachFrom(environment);
  refuseOtherMachines(reach);
  const port = wholeNumberFrom(environment, "PORT", 4870, { least: 0, most: 65_535 });
  const uploadLimitBytes = wholeNumberFrom(environment, "BOARDTRUE_UPLOAD_LIMIT", 64 * 1024 * 1024, {
    least: 1,
    most: 2 ** 40,
  });
  const log = createLog(pino.destination(2));
  const table = loadInstrumentTable();
  const examples = loadExamples(folder("../data/examples"));
  const startExamining = examinerFor(table, version);
  const webFolder = await builtPage(folder("../web"));
  const app = createApp({
    startExamining,
    startAnsweringApart,
    table,
    examples,
    webFolder,
    version,
    uploadLimitBytes,
    log,
  });
  const listening = await listenOrSay(() => listen(app, { host: reach.host, port }), reach.host, port);
  stopOnSignal(listening);
  say(`Boardtrue ${version} at ${placeInWords(reach, listening.port)}`);
  for (const example of examples) {
    say(`${example.number}  ${example.title}: ${await verdictOn(example, startExamining, log)}`);
  }
}

/** Until the records, and with them passwords, are at hand here. */
function refuseOtherMachines({ host, asksForPasswords }: Reach): void {
  if (asksForPasswords) {
    throw new CantStart(`HOST=${host}: this version answers on this machine only. Leave HOST unset.`);
  }
}

function wholeNumberFrom(
  environment: Environment,
  name: string,
  usual: number,
  { least, most }: { least: number; most: number },
): number {
  const given = environment[name];
  if (given === undefined || given === "") return usual;
  const number = Number(given);
  if (/^\d+$/.test(given) && number >= least && number <= most) return number;
  throw new CantStart(`${name}=${given}: give a whole number from ${least} to ${most}, or leave it unset (${usual}).`);
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
function stopOnSignal(listening: Listening): void {
  for (const signal of ["SIGTERM", "SIGINT"] as const) {
    process.once(signal, () => void listening.stop());
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
