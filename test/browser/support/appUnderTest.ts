/**
 * The whole program on a port of its own: the real examination, the example boards, the built page.
 */
import { join } from "node:path";
import pino from "pino";
import { examinerFor } from "../../../server/examiner.ts";
import { startAnsweringApart } from "../../../server/examinerApart.ts";
import { loadExamples } from "../../../server/exampleBoards.ts";
import { type AppParts, createApp } from "../../../server/http/app.ts";
import { listen } from "../../../server/http/listen.ts";
import { loadInstrumentTable } from "../../../server/instrumentTable.ts";
import { openStore } from "../../../server/records/openStore.ts";
import { version } from "../../../server/version.ts";

const root = join(import.meta.dirname, "../../..");

export const examplesFolder = join(root, "data/examples");

/** `given`: what is other than usual, such as `keys`, with which it asks for passwords. */
export async function startApp(
  given: Partial<AppParts> = {},
): Promise<{ readonly url: string; readonly stop: () => Promise<void> }> {
  const table = loadInstrumentTable();
  const [store, invented] = [
    await openStore({ memory: true }, { version }),
    await openStore({ memory: true }, { version }),
  ];
  const app = createApp({
    store,
    invented,
    startExamining: examinerFor(table, version),
    startAnsweringApart,
    table,
    examples: loadExamples(examplesFolder),
    webFolder: join(root, "web/dist"),
    version,
    uploadLimitBytes: 64 * 1024 * 1024,
    log: pino({ level: "silent" }),
    ...given,
  });
  const listening = await listen(app, { host: "127.0.0.1", port: 0 });
  return { url: `http://127.0.0.1:${listening.port}/`, stop: listening.stop };
}
