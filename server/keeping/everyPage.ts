/** A list from the store in full, page by page: for what has to be whole. In: how to ask for one page. Out: its entries, in order, as they come. */
import type { Page, PageAsked } from "../records/records.ts";

const entriesAPage = 200;

export async function* everyPage<Entry>(ask: (asked: PageAsked) => Promise<Page<Entry>>): AsyncGenerator<Entry> {
  let after: string | null = null;
  do {
    const page: Page<Entry> = await ask({ after, limit: entriesAPage });
    yield* page.entries;
    after = page.next;
  } while (after !== null);
}
