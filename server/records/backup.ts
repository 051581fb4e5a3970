/**
 * A whole copy of an SQLite store while others read and write: a path in, a file there once it is complete and on the disk.
 *
 * VACUUM INTO copies what stood at one moment, without the space that erased rows left; the step-by-step copy that SQLite offers too
 * begins again whenever another program writes. There is never half a copy (newFile.ts). It keeps this process busy until it is done.
 */
import { DatabaseSync } from "@photostructure/sqlite";
import { sql } from "kysely";
import type { Asking } from "./database.ts";
import { newFile } from "./newFile.ts";
import { StoreUnusable } from "./store.ts";

export async function backupSqlite(asking: Asking, path: string): Promise<void> {
  await newFile(path, async (part) => {
    // Into the empty file that is there.
    await sql`vacuum into ${part}`.execute(asking);
    checkCopy(part);
  });
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
