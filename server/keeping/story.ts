/**
 * The story of one instrument: who it is, its visits, its history, and what each work came to.
 *
 * In: the store and the instrument's number. Out: all that its page shows, or null where there is no such instrument.
 */

import type { History } from "../core/history/history.ts";
import { historyOf } from "../core/history/historyOf.ts";
import type { InstrumentRecord, VisitRecord } from "../records/records.ts";
import type { Store } from "../records/store.ts";

/** A visit before work and the one that measured again after it. */
export type BeforeAndAfter = { readonly before: VisitRecord; readonly after: VisitRecord };

export type Story = {
  readonly instrument: InstrumentRecord;
  /** Newest first, the latest `mostVisits` of them, withdrawn ones among them. */
  readonly visits: readonly VisitRecord[];
  /** Of every visit that counts, however many there are. */
  readonly history: History;
  /** Newest first. */
  readonly pairs: readonly BeforeAndAfter[];
};

const mostVisits = 200;

export async function storyOf(store: Store, instrumentNumber: string): Promise<Story | null> {
  const instrument = await store.instrument(instrumentNumber);
  if (instrument === null) return null;
  const { entries: visits } = await store.visits(instrument.number, { after: null, limit: mostVisits });
  const history = historyOf(await store.historyVisits(instrument.number));
  return { instrument, visits, history, pairs: pairsOf(visits) };
}

function pairsOf(visits: readonly VisitRecord[]): readonly BeforeAndAfter[] {
  const counted = visits.filter(({ withdrawn }) => withdrawn === null);
  return counted.flatMap((after) => {
    const before = counted.find(({ id }) => id === after.afterVisit);
    return before === undefined ? [] : [{ before, after }];
  });
}
