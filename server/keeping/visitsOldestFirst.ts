/** Every visit of an instrument, withdrawn ones too, oldest first: as its history is written down. */
import type { VisitRecord } from "../records/records.ts";
import type { Store } from "../records/store.ts";
import { everyPage } from "./everyPage.ts";

export async function visitsOldestFirst(store: Store, instrumentNumber: string): Promise<readonly VisitRecord[]> {
  const newestFirst: VisitRecord[] = [];
  for await (const visit of everyPage((asked) => store.visits(instrumentNumber, asked))) newestFirst.push(visit);
  return newestFirst.reverse();
}
