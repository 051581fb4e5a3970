/**
 * An archive that arrives as a stream, laid aside in a file of its own for as long as it is worked on: a ZIP is read from its end.
 *
 * In: its bytes, and how many there may be. Out: what the work made of the file; the file is gone then, whatever happened.
 * Rejects with TooLong where more arrives, with the stream's own error where that breaks off.
 */
import { createWriteStream } from "node:fs";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pipeline } from "node:stream/promises";
import { StoreUnavailable } from "../../records/store.ts";

export class TooLong extends Error {}

export async function keptAside<Made>(
  bytes: AsyncIterable<Uint8Array>,
  mostBytes: number,
  work: (path: string) => Promise<Made>,
): Promise<Made> {
  const folder = await mkdtemp(join(tmpdir(), "boardtrue-archive-"));
  try {
    const path = join(folder, "archive.zip");
    await pipeline(atMost(bytes, mostBytes), createWriteStream(path, { mode: 0o600 }));
    return await work(path);
  } catch (error) {
    const noRoom = error instanceof Error && "code" in error && ["ENOSPC", "EDQUOT"].includes(String(error.code));
    throw noRoom ? new StoreUnavailable("full", { cause: error }) : error;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

async function* atMost(bytes: AsyncIterable<Uint8Array>, mostBytes: number): AsyncGenerator<Uint8Array> {
  let count = 0;
  for await (const piece of bytes) {
    count += piece.length;
    if (count > mostBytes) throw new TooLong(`more than ${mostBytes} bytes`);
    yield piece;
  }
}
