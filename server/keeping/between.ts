/**
 * Wear between two visits of an instrument: of this one and an earlier one, by default the visit before it that counts.
 *
 * In: store, number, the later visit, the earlier one's id or null. Out: the growth of wear, or why it can't be told: a work lies between, there
 * is no earlier visit, or the two surveys can't be compared; null where the earlier visit is none of this instrument.
 */
import { type Between, wearBetween } from "../core/history/wearBetween.ts";
import type { VisitRecord } from "../records/records.ts";
import type { Store } from "../records/store.ts";

export type BetweenVisits = { readonly earlier: VisitRecord | null; readonly between: Between };

export async function betweenVisits(
  store: Store,
  later: VisitRecord,
  earlierId: string | null,
): Promise<BetweenVisits | null> {
  const { instrumentNumber } = later;
  const counted = await store.historyVisits(instrumentNumber);
  const at = counted.findIndex(({ id }) => id === later.id);
  if (at < 0) return { earlier: null, between: notComparable("This visit is withdrawn: it doesn't count.") };
  const from = earlierId === null ? at - 1 : counted.findIndex(({ id }) => id === earlierId);
  const earlier = counted[from] === undefined ? null : await store.visit(instrumentNumber, counted[from].id);
  if (earlier === null) {
    if (earlierId !== null) return null;
    return { earlier, between: notComparable("There is no earlier visit to compare with.") };
  }
  const works = counted.slice(from, at + 1);
  if (from >= at) return { earlier, between: notComparable("That visit is not the earlier one.") };
  const isWorked = works.some(
    ({ workDone, afterVisit }, i) =>
      (i > 0 && afterVisit !== null) || (i < works.length - 1 && workDone !== "none" && workDone !== "other"),
  );
  if (isWorked) return { earlier, between: notComparable("The board was worked on between the two visits.") };
  const [before, after] = [await store.examination(earlier.id), await store.examination(later.id)];
  if (before === null || after === null) throw new Error("a visit without an examination");
  return { earlier, between: wearBetween(before.examination, after.examination) };
}

function notComparable(why: string): Between {
  return { told: "not comparable", why };
}
