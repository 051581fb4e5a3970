/** Archives in tests: taken apart by another library's reader, put together again with members changed, and laid into a file. */
import { createHash } from "node:crypto";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { onTestFinished } from "vitest";
import yauzl from "yauzl";
import { exportArchive } from "../../server/keeping/archive/exportArchive.ts";
import { zipped } from "../../server/keeping/archive/zipOut.ts";
import type { Store } from "../../server/records/store.ts";

/** Path -> bytes, in the order of the archive. */
export type Members = ReadonlyMap<string, Buffer>;

export async function bytesOf(pieces: AsyncIterable<Uint8Array>): Promise<Buffer> {
  const gathered: Uint8Array[] = [];
  for await (const piece of pieces) gathered.push(piece);
  return Buffer.concat(gathered);
}

export function exported(store: Store, withPlayers = true): Promise<Buffer> {
  return bytesOf(exportArchive(store, { withPlayers }));
}

export async function membersOf(archive: Buffer): Promise<Members> {
  const members = new Map<string, Buffer>();
  const zip = await yauzl.fromBufferPromise(archive);
  for await (const entry of zip.eachEntry()) {
    members.set(entry.fileName, await bytesOf(await zip.openReadStreamPromise(entry)));
  }
  return members;
}

/** As they are: check sums and all. */
export function packed(members: Iterable<readonly [path: string, bytes: Uint8Array]>): Promise<Buffer> {
  async function* each() {
    for (const [path, bytes] of members) yield { path, bytes };
  }
  return bytesOf(zipped(each()));
}

/** Members changed (null: left out) and the check sums made to fit, as somebody would who means harm. */
export function changed(
  members: Members,
  changes: Readonly<Record<string, string | Uint8Array | null>>,
): Promise<Buffer> {
  const now = new Map<string, Uint8Array>(members);
  for (const [path, content] of Object.entries(changes)) {
    if (content === null) now.delete(path);
    else now.set(path, Buffer.from(content));
  }
  const lines = [...now]
    .filter(([path]) => path !== "sha256sums.txt")
    .map(([path, bytes]) => `${createHash("sha256").update(bytes).digest("hex")}  ${path}\n`);
  now.set("sha256sums.txt", Buffer.from(lines.join("")));
  return packed(now);
}

/** The path of a file that holds these bytes until the test ends. */
export function inFile(bytes: Uint8Array): string {
  const folder = mkdtempSync(join(tmpdir(), "boardtrue-archive-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const path = join(folder, "archive.zip");
  writeFileSync(path, bytes);
  return path;
}
