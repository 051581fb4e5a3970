/**
 * The app on a port of its own, with an examination that only counts what reaches it, and a client of bare sockets for
 * requests that no well-behaved client sends.
 */
import { connect, type Socket } from "node:net";
import { Writable } from "node:stream";
import type { SettingEntry } from "../../../server/core/board/settings.ts";
import type { StartExamining } from "../../../server/examiner.ts";
import { type AppParts, createApp } from "../../../server/http/app.ts";
import { listen, type Patience } from "../../../server/http/listen.ts";
import { createLog } from "../../../server/http/log.ts";
import { loadInstrumentTable } from "../../../server/instrumentTable.ts";
import { openStore } from "../../../server/records/openStore.ts";
import { smallExamination } from "../reports/smallExamination.ts";

/** What reached the examination. */
export type Seen = {
  readingsBytes: number;
  thicknessBytes: number | null;
  railBytes: number | null;
  settings: readonly SettingEntry[];
  finished: number;
};

export type ServerUnderTest = {
  readonly port: number;
  readonly url: string;
  readonly seen: Seen;
  /** Lines of the log so far. */
  readonly log: readonly string[];
  stop(): Promise<void>;
};

export async function startServer(
  given: Partial<AppParts> & { readonly patience?: Patience } = {},
): Promise<ServerUnderTest> {
  const seen: Seen = { readingsBytes: 0, thicknessBytes: null, railBytes: null, settings: [], finished: 0 };
  const log: string[] = [];
  const sink = new Writable({
    write(line: Buffer, _encoding, done) {
      log.push(line.toString());
      done();
    },
  });
  const { patience, ...parts } = given;
  const version = "0.0.0-test";
  const app = createApp({
    store: await openStore({ memory: true }, { version }),
    invented: await openStore({ memory: true }, { version }),
    startExamining: countingExaminer(seen),
    table: loadInstrumentTable(),
    examples: [],
    webFolder: "no-such-folder",
    version,
    uploadLimitBytes: 1_000_000,
    log: createLog(sink),
    ...parts,
  });
  const listening = await listen(app, { host: "127.0.0.1", port: 0, ...(patience === undefined ? {} : { patience }) });
  return { port: listening.port, url: `http://127.0.0.1:${listening.port}`, seen, log, stop: listening.stop };
}

/** Counts; finds a fault in an empty file or in one that says "faulty"; fails on one that says "break down". */
function countingExaminer(seen: Seen): StartExamining {
  return () => {
    let beginning = "";
    return {
      readings: {
        push(chunk) {
          seen.readingsBytes += chunk.length;
          if (beginning.length < 100) beginning += Buffer.from(chunk).toString("latin1").slice(0, 100);
        },
      },
      openThickness() {
        seen.thicknessBytes = 0;
        return {
          push(chunk) {
            seen.thicknessBytes = (seen.thicknessBytes ?? 0) + chunk.length;
          },
        };
      },
      openRail() {
        seen.railBytes = 0;
        return {
          push(chunk) {
            seen.railBytes = (seen.railBytes ?? 0) + chunk.length;
          },
        };
      },
      settingsInReadings: () => [],
      finish(settings) {
        seen.finished += 1;
        seen.settings = settings;
        if (beginning.includes("break down")) throw new Error("secret inner words");
        if (beginning === "" || beginning.includes("faulty")) {
          const fault = {
            where: "readings",
            line: 2,
            column: 3,
            code: "not-a-number",
            saw: '"O.45"',
            remedy: "Write 0.45.",
          } as const;
          return { outcome: "faulty", faults: [fault, { ...fault, line: 3 }] };
        }
        return { outcome: "examined", examination: smallExamination };
      },
    };
  };
}

export function formOf(parts: Readonly<Record<string, string | Blob>>): FormData {
  const form = new FormData();
  for (const [name, content] of Object.entries(parts)) {
    form.append(
      name,
      content instanceof Blob || name === "settings" ? content : new Blob([content]),
      ...((name === "settings" ? [] : ["a.csv"]) as []),
    );
  }
  return form;
}

/** Sends the pieces on a bare socket, waiting a little between them; resolves with all that came back until it closed. */
export async function exchange(port: number, pieces: Iterable<string | Buffer>, pauseMs = 0): Promise<string> {
  const socket = connect(port, "127.0.0.1");
  let answer = "";
  socket.on("data", (chunk) => {
    answer += chunk.toString("latin1");
  });
  const closed = new Promise<void>((resolve) => {
    socket.on("close", resolve);
    socket.on("error", () => resolve());
  });
  for (const piece of pieces) {
    if (socket.destroyed) break;
    await sent(socket, piece);
    if (pauseMs > 0) await pause(pauseMs);
  }
  await closed;
  return answer;
}

async function sent(socket: Socket, piece: string | Buffer): Promise<void> {
  await new Promise<void>((resolve) => {
    socket.write(piece, () => resolve());
  });
}

export const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));

export const boundary = "xXboardXx";

/** One part of a form as it stands on the wire. */
export function part(name: string, content: string, fileName: string | null = "readings.csv"): string {
  const file = fileName === null ? "" : `; filename="${fileName}"\r\nContent-Type: text/csv`;
  return `--${boundary}\r\nContent-Disposition: form-data; name="${name}"${file}\r\n\r\n${content}\r\n`;
}

/** The head of a request to examine, and `Connection: close` so that the exchange ends. */
export function head(port: number, bodyBytes: number | "chunked", more: readonly string[] = []): string {
  return [
    "POST /api/examinations HTTP/1.1",
    `Host: 127.0.0.1:${port}`,
    `Content-Type: multipart/form-data; boundary=${boundary}`,
    bodyBytes === "chunked" ? "Transfer-Encoding: chunked" : `Content-Length: ${bodyBytes}`,
    "Connection: close",
    ...more,
    "",
    "",
  ].join("\r\n");
}
