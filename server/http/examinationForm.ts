/**
 * Receives the form of an examination while it arrives.
 *
 * In: a request with `multipart/form-data` (RFC 7578): `readings` (CSV), and if wanted `thickness` (CSV), `rail` (CSV, the
 * rail's error profile) and `settings` (a JSON object). Each chunk of a file goes straight into its reader; nothing is written to disk and no
 * file is ever held whole. File names are not looked at.
 * Out: the settings, once everything has arrived, or null where the client left half way: nobody to answer.
 * Throws a Problem for a form that is refused; the rest of the upload is then still on its way.
 */
import type { IncomingMessage } from "node:http";
import type { Readable } from "node:stream";
import busboy from "busboy";
import type { SettingEntry } from "../core/board/settings.ts";
import type { ChunkTaker } from "../examiner.ts";
import { settingsFromOutside } from "../settingsFromOutside.ts";
import { Problem } from "./problems.ts";
import { settingsFromJson } from "./wire/settings.ts";

/** Where the files go. */
type FileTakers = { readonly readings: ChunkTaker; openThickness(): ChunkTaker; openRail(): ChunkTaker };

const partNames = ["readings", "thickness", "rail", "settings"] as const;
type PartName = (typeof partNames)[number];

/** Settings are a few lines; anything longer is something else. */
const settingsLimitBytes = 64 * 1024;
/** A part sent as a plain field (no file name) is held whole by the parser, so it may not be long. */
const fieldLimitBytes = 1024 * 1024;

export async function receiveExaminationForm(
  request: IncomingMessage,
  files: FileTakers,
  limitBytes: number,
): Promise<readonly SettingEntry[] | null> {
  refuseOtherTypes(request);
  refuseDeclaredSize(request, limitBytes);
  const parts = partTakers(files);
  const parser = parserFor(request);
  let refusal: Problem | null = null;
  const refuse = (error: unknown) => {
    refusal ??= error instanceof Problem ? error : new Problem("broken-form", { detail: brokenFormDetail });
  };
  const guarded = (take: () => void) => {
    try {
      take();
    } catch (error) {
      refuse(error);
    }
  };

  const closed = new Promise<void>((resolve) => {
    parser.on("close", resolve);
  });
  parser.on("error", refuse);
  for (const limit of ["partsLimit", "filesLimit", "fieldsLimit"] as const) {
    parser.on(limit, () =>
      refuse(new Problem("broken-form", { detail: `Send no parts but ${partNames.join(", ")}.` })),
    );
  }
  parser.on("file", (name: string, file: Readable) => {
    // A file stream also fails when the form breaks off; the parser reports that itself.
    file.on("error", () => undefined);
    guarded(() => {
      const take = parts.open(name);
      file.on("data", (chunk: Buffer) => guarded(() => take(chunk)));
    });
    file.resume();
  });
  parser.on("field", (name, text, { valueTruncated }) => {
    guarded(() => {
      const take = parts.open(name);
      if (valueTruncated) {
        throw new Problem("too-large", { detail: `Send the part "${name}" as a file: as a field it may have 1 MiB.` });
      }
      take(Buffer.from(text));
    });
  });

  let receivedBytes = 0;
  try {
    // Leaving the loop must not destroy the request: the refusal still has to go out on its connection.
    for await (const chunk of request.iterator({ destroyOnReturn: false }) as AsyncIterable<Buffer>) {
      receivedBytes += chunk.length;
      if (receivedBytes > limitBytes) throw tooLarge(limitBytes);
      await written(parser, chunk);
      if (refusal !== null) throw refusal;
    }
  } catch (error) {
    parser.destroy();
    if (error instanceof Problem) throw error;
    if (request.errored !== null || request.destroyed) return null;
    throw error;
  }
  parser.end();
  await closed;
  if (refusal !== null) throw refusal;
  return parts.settings();
}

const brokenFormDetail = "The form is not well-formed multipart/form-data, or it ends too early.";

/** Where each part goes; refuses what is unknown, missing or there twice. */
function partTakers(files: FileTakers) {
  const seen = new Set<PartName>();
  const settingsChunks: Uint8Array[] = [];
  let settingsBytes = 0;
  const takeSettings = (chunk: Uint8Array) => {
    settingsBytes += chunk.length;
    if (settingsBytes > settingsLimitBytes) {
      throw new Problem("too-large", { detail: `Settings may have ${settingsLimitBytes} bytes.` });
    }
    settingsChunks.push(chunk);
  };
  return {
    open(name: string): (chunk: Uint8Array) => void {
      const part = partNames.find((known) => known === name);
      if (part === undefined) {
        throw new Problem("unknown-part", { detail: `Send no parts but ${partNames.join(", ")}.` });
      }
      if (seen.has(part)) throw new Problem("repeated-part", { detail: `Send the part "${part}" once.` });
      seen.add(part);
      if (part === "settings") return takeSettings;
      const reader = readerOf(part, files);
      return (chunk) => reader.push(chunk);
    },
    settings(): readonly SettingEntry[] {
      if (!seen.has("readings")) {
        throw new Problem("missing-part", { detail: 'Send the CSV of height readings as the part "readings".' });
      }
      return seen.has("settings") ? settingsFromOutside(settingsFromJson(Buffer.concat(settingsChunks))) : [];
    },
  };
}

function readerOf(part: Exclude<PartName, "settings">, files: FileTakers): ChunkTaker {
  switch (part) {
    case "readings":
      return files.readings;
    case "thickness":
      return files.openThickness();
    case "rail":
      return files.openRail();
  }
}

function refuseOtherTypes(request: IncomingMessage): void {
  const type = request.headers["content-type"] ?? "";
  if (!/^multipart\/form-data\s*(;|$)/i.test(type.trim())) {
    throw new Problem("not-a-form", { detail: 'Send multipart/form-data with the part "readings" (CSV).' });
  }
}

function refuseDeclaredSize(request: IncomingMessage, limitBytes: number): void {
  if (Number(request.headers["content-length"] ?? 0) > limitBytes) throw tooLarge(limitBytes);
}

function tooLarge(limitBytes: number): Problem {
  const detail = `At most ${limitBytes} bytes are taken in one request. The limit is BOARDTRUE_UPLOAD_LIMIT.`;
  return new Problem("too-large", { detail });
}

function parserFor(request: IncomingMessage): busboy.Busboy {
  try {
    return busboy({
      headers: request.headers,
      limits: { fieldNameSize: 100, fieldSize: fieldLimitBytes, fields: 6, files: 6, parts: 6, headerPairs: 20 },
    });
  } catch {
    throw new Problem("broken-form", { detail: "The form's boundary is missing from its content type." });
  }
}

/** Resolves when the parser has taken the chunk; at once if it broke on it. */
async function written(parser: busboy.Busboy, chunk: Buffer): Promise<void> {
  if (parser.destroyed || parser.errored !== null) return;
  await new Promise<void>((resolve) => {
    parser.write(chunk, () => resolve());
  });
}
