/**
 * The log: one JSON line each, to whatever it is given (the program gives standard error), with nothing personal in it.
 *
 * An error's message may carry what somebody typed, and a database's error the row it was about. So of an error only its name, its code and where in
 * the program it arose are written (the frames of its stack, from the project's own folder on), and the same of its causes: enough to find the line,
 * which says the rest.
 */
import { fileURLToPath } from "node:url";
import pino, { type DestinationStream, type Logger } from "pino";

export function createLog(destination: DestinationStream): Logger {
  return pino(
    {
      base: null,
      serializers: { err: failureForLog },
      hooks: {
        // pino makes an error's message the line's own where none is said.
        logMethod(words, write) {
          const [first, ...others] = words as unknown[];
          const line: unknown[] = first instanceof Error ? [{ err: first }, ...others] : [first, ...others];
          if (line.length === 1 && typeof line[0] === "object") line.push("failed");
          Reflect.apply(write, this, line);
        },
      },
    },
    destination,
  );
}

type FailureForLog = {
  readonly name: string;
  readonly code?: string;
  readonly at: readonly string[];
  readonly cause?: FailureForLog;
};

const projectFolders = [new URL("../../", import.meta.url).href, fileURLToPath(new URL("../../", import.meta.url))];
const mostFrames = 20;
const mostCauses = 5;

export function failureForLog(error: unknown, causes = 0): FailureForLog {
  if (!(error instanceof Error)) return { name: typeof error, at: [] };
  // "ENOENT", "ERR_STREAM_DESTROYED", PostgreSQL's "23505": systems write their codes like that, people nothing.
  const code = "code" in error && /^[A-Z0-9_]{2,40}$/.test(String(error.code)) ? String(error.code) : null;
  return {
    name: error.constructor.name,
    ...(code === null ? {} : { code }),
    at: framesOf(error),
    ...(error.cause === undefined || causes >= mostCauses ? {} : { cause: failureForLog(error.cause, causes + 1) }),
  };
}

/** "at leastCut (server/core/planing/leastCut.ts:12:3)": what follows the message, and of it only lines that name a place in a file. */
function framesOf({ message, stack = "" }: Error): readonly string[] {
  const messageAt = stack.indexOf(message);
  const afterMessage = messageAt < 0 ? stack : stack.slice(messageAt + message.length);
  const frames = afterMessage.match(/^ +at .*[/\\:].*:\d+:\d+\)?$/gm) ?? [];
  return frames.slice(0, mostFrames).map((frame) => withoutFolders(frame.trim()));
}

/** Folders outside the project may bear the name of whoever owns them. */
function withoutFolders(frame: string): string {
  const inProject = projectFolders.reduce((text, folder) => text.replaceAll(folder, ""), frame);
  return inProject.replace(/(^at (?:async )?|\()(?:file:\/\/)?(?:\/|[a-z]:[\\/]).*[\\/]/i, "$1…/");
}
