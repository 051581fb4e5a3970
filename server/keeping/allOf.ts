/** Every entry of a list that the store hands out in parts, one after the other; only one part is in memory. */
import type { Page, PageAsked } from "../records/records.ts";

const atOnce = 200;

export async function* allOf<Entry>(partOf: (asked: PageAsked) => Promise<Page<Entry>>): AsyncGenerator<Entry> {
  let after: string | null = null;
  do {
    const page: Page<Entry> = await partOf({ after, limit: atOnce });
    yield* page.entries;
    after = page.next;
  } while (after !== null);
}
