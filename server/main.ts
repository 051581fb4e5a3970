/**
 * The server as a program: reads the environment, listens, says where and what it sees, stops on a signal.
 *
 * PORT (4870), HOST (127.0.0.1), BOARDTRUE_UPLOAD_LIMIT (bytes of one request, 64 MiB). The address and a verdict for
 * each example board go to standard output, the log to standard error. Exit 1 where it can't start.
 */
import { createReadStream } from "node:fs";
import { fileURLToPath } from "node:url";
import pino from "pino";
import { builtPage } from "./buildPage.ts";
import { faultInWords } from "./core/fault.ts";
import { examinerFor, type StartExamining } from "./examiner.ts";
import { type Example, loadExamples } from "./exampleBoards.ts";
import { createApp } from "./http/app.ts";
import { type Listening, listen } from "./http/listen.ts";
import { loadInstrumentTable } from "./instrumentTable.ts";
import { verdictLine } from "./reports/verdictLine.ts";
import { version } from "./version.ts";

const folder = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** Something in the environment that the program can't start with, in words for whoever set it. */
class CantStart extends Error {}

try {
  await serve();
} catch (error) {
  if (!(error instanceof CantStart)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 1;
}

async function serve(): Promise<void> {
  const host = hostFrom(process.env.HOST);
  const port = wholeNumberFrom("PORT", 4870, { least: 0, most: 65_535 });
  const uploadLimitBytes = wholeNumberFrom("BOARDTRUE_UPLOAD_LIMIT", 64 * 1024 * 1024, { least: 1, most: 2 ** 40 });
  const table = loadInstrumentTable();
  const examples = loadExamples(folder("../data/examples"));
  const startExamining = examinerFor(table, version);
  const app = createApp({
    startExamining,
    table,
    examples,
    webFolder: await builtPage(folder("../web")),
    version,
    uploadLimitBytes,
    log: pino({ base: null }, pino.destination(2)),
  });
  const listening = await listenOrSay(() => listen(app, { host, port }), port);
  stopOnSignal(listening);
  process.stdout.write(
    `Boardtrue ${version} at http://${host.includes(":") ? `[${host}]` : host}:${listening.port}/\n`,
  );
  for (const example of examples) {
    process.stdout.write(`${example.number}  ${example.title}: ${await verdictOn(example, startExamining)}\n`);
  }
}

function hostFrom(given: string | undefined): string {
  const host = given || "127.0.0.1";
  if (["127.0.0.1", "localhost", "::1"].includes(host)) return host;
  throw new CantStart(
    `HOST=${host}: this version answers on this machine only, because it has no passwords yet. Leave HOST unset.`,
  );
}

function wholeNumberFrom(name: string, usual: number, { least, most }: { least: number; most: number }): number {
  const given = process.env[name];
  if (given === undefined || given === "") return usual;
  const number = Number(given);
  if (/^\d+$/.test(given) && number >= least && number <= most) return number;
  throw new CantStart(`${name}=${given}: give a whole number from ${least} to ${most}, or leave it unset (${usual}).`);
}

async function listenOrSay(start: () => Promise<Listening>, port: number): Promise<Listening> {
  try {
    return await start();
  } catch (error) {
    const code = error instanceof Error && "code" in error ? error.code : null;
    if (code === "EADDRINUSE") {
      throw new CantStart(
        `Port ${port} is taken: another program, or another Boardtrue, listens there. Stop it, or choose another port: PORT=${port + 1} npm start`,
      );
    }
    if (code === "EACCES")
      throw new CantStart(`Port ${port} may not be used here. Choose one above 1023: PORT=4870 npm start`);
    throw error;
  }
}

/** The first signal lets answers under way end; a second one ends the program at once. */
function stopOnSignal(listening: Listening): void {
  const stop = () => {
    process.once("SIGTERM", () => process.exit(1));
    process.once("SIGINT", () => process.exit(1));
    void listening.stop();
  };
  process.once("SIGTERM", stop);
  process.once("SIGINT", stop);
}

async function verdictOn(example: Example, startExamining: StartExamining): Promise<string> {
  const examining = startExamining();
  for await (const chunk of createReadStream(example.readingsPath)) examining.readings.push(chunk);
  if (example.thicknessPath !== null) {
    const thickness = examining.openThickness();
    for await (const chunk of createReadStream(example.thicknessPath)) thickness.push(chunk);
  }
  const examined = examining.finish([]);
  return examined.outcome === "examined"
    ? verdictLine(examined.examination)
    : examined.faults.map(faultInWords).join(" ");
}
