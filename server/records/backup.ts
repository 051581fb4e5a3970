/**
 * A whole copy of an SQLite store while others read and write: a path in, a file there once it is complete and on the disk.
 *
 * VACUUM INTO copies what stood at one moment, without the space that erased rows left; the step-by-step copy that SQLite offers too
 * begins again whenever another program writes. The copy is made beside its place under another name, checked, synced and then given
 * its name, which must be free: there is never half a copy, and none is overwritten. It keeps this process busy until it is done.
 */
import { randomUUID } from "node:crypto";
import { existsSync } from "node:fs";
import { link, open, rename, rm } from "node:fs/promises";
import { dirname, resolve } from "node:path";
import { DatabaseSync } from "@photostructure/sqlite";
import { sql } from "kysely";
import type { Asking } from "./database.ts";
import { StoreUnusable } from "./store.ts";

export async function backupSqlite(asking: Asking, path: string): Promise<void> {
  const whole = resolve(path);
  if (existsSync(whole)) throw thereAlready(path);
  const part = `${whole}.${randomUUID()}.part`;
  try {
    // For its owner's eyes only, like the store itself; VACUUM INTO takes an empty file.
    await (await open(part, "wx", 0o600)).close();
    await sql`vacuum into ${part}`.execute(asking);
    checkCopy(part);
    await synced(part);
    await takeName(part, whole, path);
    await synced(dirname(whole));
  } finally {
    await rm(part, { force: true });
  }
}

function thereAlready(path: string): StoreUnusable {
  return new StoreUnusable(`${path} is there already; a copy does not overwrite it. Say another name.`);
}

function checkCopy(part: string): void {
  const copy = new DatabaseSync(part, { readOnly: true });
  try {
    const says: unknown = copy.prepare("pragma quick_check").get();
    if (JSON.stringify(says) !== '{"quick_check":"ok"}')
      throw new StoreUnusable("The copy did not come out whole; none was kept.");
  } finally {
    copy.close();
  }
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
