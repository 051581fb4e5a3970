/** Bytes packed (gzip) and unpacked, off the main thread; and their SHA-256 as hex. */
import { createHash } from "node:crypto";
import { promisify } from "node:util";
import { gunzip, gzip } from "node:zlib";

export const packed: (bytes: Uint8Array) => Promise<Uint8Array> = promisify<Uint8Array, Buffer>(gzip);
export const unpacked: (bytes: Uint8Array) => Promise<Uint8Array> = promisify<Uint8Array, Buffer>(gunzip);

export function sha256Of(bytes: Uint8Array | string): string {
  return createHash("sha256").update(bytes).digest("hex");
}
