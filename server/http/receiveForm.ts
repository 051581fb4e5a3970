/**
 * Receives a form while it arrives, part by part, and holds it until it is whole.
 *
 * In: a request with `multipart/form-data` (RFC 7578); which parts it may have, and of them which must be there; the share of the
 * server's room that it takes up (see uploadRoom.ts). Out: the bytes of every part, as they were sent; or null where the client left half way: nobody
 * to answer. File names are not looked at.
 *
 * It is held, not worked on while it arrives: an upload that stalls keeps its bytes here, but no turn of the examiner's.
 * Throws a Problem for a form that is refused; the rest of the upload is then still on its way.
 */
import type { IncomingMessage } from "node:http";
import type { Readable } from "node:stream";
import busboy from "busboy";
import { Problem } from "./problems.ts";
import type { ShareOfRoom } from "./uploadRoom.ts";

/** The parts of a form by name, each with the most bytes that it may have; null: as many as the whole request. */
export type FormTakes<PartName extends string> = {
  readonly parts: Readonly<Record<PartName, number | null>>;
  /** The one that must be there, and what it is, in words. */
  readonly needed: { readonly part: PartName; readonly says: string };
};

/** A part that is there, piece by piece as it came. */
export type ReceivedForm<PartName extends string> = ReadonlyMap<PartName, readonly Uint8Array[]>;

/** A part sent as a plain field (no file name) is held by the parser until it is whole, so it may not be long. */
const fieldLimitBytes = 1024 * 1024;

export async function receiveForm<PartName extends string>(
  request: IncomingMessage,
  takes: FormTakes<PartName>,
  { limitBytes, share }: { readonly limitBytes: number; readonly share: ShareOfRoom },
): Promise<ReceivedForm<PartName> | null> {
  refuseOtherTypes(request);
  refuseDeclaredSize(request, limitBytes);
  const parts = partsOf(takes);
  const parser = parserFor(request, parts.most);
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
    parser.on(limit, () => refuse(parts.unknown()));
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
      // The parser puts this mark where bytes are no UTF-8: what was sent is lost then, and must not be kept as if it were not.
      if (text.includes("\ufffd")) {
        throw new Problem("broken-form", { detail: `The part "${name}" is not text in UTF-8. Send a file as a file.` });
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
      share.grow(chunk.length);
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
  return parts.received();
}

const brokenFormDetail = "The form is not well-formed multipart/form-data, or it ends too early.";

/** Where each part goes; refuses what is unknown, missing, too long or there twice. */
function partsOf<PartName extends string>({ parts, needed }: FormTakes<PartName>) {
  const names = Object.keys(parts) as PartName[];
  const received = new Map<PartName, Uint8Array[]>();
  const unknown = () => new Problem("unknown-part", { detail: `Send no parts but ${names.join(", ")}.` });
  return {
    /** One more than there are names, so that the one too many is seen and named. */
    most: names.length + 1,
    unknown,
    open(name: string): (chunk: Uint8Array) => void {
      const part = names.find((known) => known === name);
      if (part === undefined) throw unknown();
      if (received.has(part)) throw new Problem("repeated-part", { detail: `Send the part "${part}" once.` });
      const chunks: Uint8Array[] = [];
      received.set(part, chunks);
      const mostBytes = parts[part];
      let bytes = 0;
      return (chunk) => {
        bytes += chunk.length;
        if (mostBytes !== null && bytes > mostBytes) {
          throw new Problem("too-large", { detail: `The part "${part}" may have ${mostBytes} bytes.` });
        }
        chunks.push(chunk);
      };
    },
    received(): ReceivedForm<PartName> {
      if (!received.has(needed.part)) {
        throw new Problem("missing-part", { detail: `Send ${needed.says} as the part "${needed.part}".` });
      }
      return received;
    },
  };
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

function parserFor(request: IncomingMessage, parts: number): busboy.Busboy {
  try {
    return busboy({
      headers: request.headers,
      limits: {
        fieldNameSize: 100,
        fieldSize: fieldLimitBytes,
        fields: parts,
        files: parts,
        parts,
        headerPairs: 20,
      },
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
