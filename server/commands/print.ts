/** The answer to standard output, piece by piece, as fast as whoever reads it takes it. */
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";

export async function print(pieces: Iterable<string> | AsyncIterable<string>): Promise<void> {
  await pipeline(Readable.from(pieces), process.stdout, { end: false });
}
