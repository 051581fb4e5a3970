/**
 * The workshop's own records for one task of the command: opened, handed to the task, closed. The same store as the server's, also
 * while that runs.
 *
 * Where the store can't be used, or fails under way, that is told in words (Faulty, exit 1). A task that only reads does not
 * make an empty store where there is none (`mayBegin: false`).
 */
import { existsSync } from "node:fs";
import { join } from "node:path";
import { CantStart, type Environment } from "../cantStart.ts";
import { storeTroubles } from "../http/storeTroubles.ts";
import { openStore } from "../records/openStore.ts";
import { type Store, StoreUnavailable, StoreUnusable } from "../records/store.ts";
import { version } from "../version.ts";
import { placeOfRecordsInWords, whereRecords } from "../whereRecords.ts";
import { Faulty } from "./refusals.ts";

export async function withRecords(
  environment: Environment,
  { mayBegin }: { readonly mayBegin: boolean },
  work: (store: Store, place: string) => Promise<void>,
): Promise<void> {
  let store: Store | null = null;
  try {
    const where = whereRecords(environment);
    const place = placeOfRecordsInWords(where);
    if (!mayBegin && "folder" in where && !existsSync(join(where.folder, "records.sqlite"))) {
      throw new Faulty(`There are no records in ${where.folder} yet. BOARDTRUE_DATA names another folder.`);
    }
    store = await openStore(where, { version });
    await work(store, place);
  } catch (error) {
    if (error instanceof StoreUnusable || error instanceof CantStart) throw new Faulty(error.message);
    if (error instanceof StoreUnavailable) throw new Faulty(`Records: ${storeTroubles[error.trouble].detail}`);
    throw error;
  } finally {
    await store?.close();
  }
}
