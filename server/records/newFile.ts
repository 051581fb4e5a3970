/**
 * A new file, whole or not at all: a path and what writes it in, a file there once it is complete and on the disk.
 *
 * It is written beside its place under another name (`….part`), synced, and then given its name, which must be free: there is never half
 * a file under it, and none is overwritten. Rejects with StoreUnusable, in words, where the name is taken.
 */
import { randomUUID } from "node:crypto";
import { existsSync } from "node:fs";
import { link, open, rename, rm } from "node:fs/promises";
import { dirname, resolve } from "node:path";
import { StoreUnusable } from "./store.ts";

/** `write` fills the empty file whose path it gets; where it rejects, nothing is left. */
export async function newFile(path: string, write: (part: string) => Promise<void>): Promise<void> {
  const whole = resolve(path);
  if (existsSync(whole)) throw thereAlready(path);
  const part = `${whole}.${randomUUID()}.part`;
  // For its owner's eyes only, like the store itself.
  await (await open(part, "wx", 0o600)).close();
  try {
    await write(part);
    await synced(part);
    await takeName(part, whole, path);
    await synced(dirname(whole));
  } finally {
    await rm(part, { force: true });
  }
}

function thereAlready(path: string): StoreUnusable {
  return new StoreUnusable(`${path} is there already and is not overwritten. Say another name.`);
}

/** A hard link can't overwrite; where the file system has none (a memory stick), the name is looked at once more instead. */
async function takeName(part: string, whole: string, path: string): Promise<void> {
  try {
    await link(part, whole);
  } catch (error) {
    if (existsSync(whole)) throw thereAlready(path);
    if (!(error instanceof Error && "code" in error)) throw error;
    await rename(part, whole);
  }
}

/** On Windows a folder can't be opened; there its entries need no sync of their own. */
async function synced(path: string): Promise<void> {
  const handle = await open(path, "r+").catch(() => open(path, "r").catch(() => null));
  try {
    await handle?.sync();
  } finally {
    await handle?.close();
  }
}
