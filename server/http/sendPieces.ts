/**
 * Sends an answer that is too long for one text, piece by piece, as fast as the client reads it.
 *
 * A client that leaves is no failure; one that takes longer than ten minutes to read an answer is not reading it, and is cut off.
 */
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import type { Response } from "express";

const usualLongestMs = 600_000;
/** Log, compression, uploads and a pipeline's own listen for the end of one response, eleven in all; Node takes more than ten for a leak. */
const mostListeners = 16;

export async function sendPieces(
  response: Response,
  pieces: Iterable<string | Uint8Array> | AsyncIterable<string | Uint8Array>,
  longestMs = usualLongestMs,
): Promise<void> {
  response.setMaxListeners(mostListeners);
  try {
    await pipeline(Readable.from(pieces), response, { signal: AbortSignal.timeout(longestMs) });
  } catch (error) {
    if (!isClientGone(error)) throw error;
  }
}

function isClientGone(error: unknown): boolean {
  const code = error instanceof Error && "code" in error ? error.code : null;
  return code === "ERR_STREAM_PREMATURE_CLOSE" || code === "ABORT_ERR" || code === "ECONNRESET" || code === "EPIPE";
}
