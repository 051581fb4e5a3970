/**
 * The visits of an instrument in the order in which they happened.
 *
 * Visits in any order -> oldest first, each with its day (days since 1970-01-01). On the same day a visit that measures again after
 * the work stands after the visit it measures again; otherwise the order given holds. A measuring again that is dated before its
 * first measuring counts as of that day: the work lies between them, whatever the dates say.
 */
import { dayNumber } from "./days.ts";
import type { HistoryVisit } from "./history.ts";

export type VisitInOrder = { readonly visit: HistoryVisit; readonly day: number };

export function inOrder(visits: readonly HistoryVisit[]): readonly VisitInOrder[] {
  const byId = new Map(visits.map((visit) => [visit.id, visit]));
  return visits
    .map((visit) => {
      const before = measuredBefore(visit, byId);
      return { visit, day: Math.max(...[visit, ...before].map(({ date }) => dayNumber(date))), step: before.length };
    })
    .sort((one, other) => one.day - other.day || one.step - other.step)
    .map(({ visit, day }) => ({ visit, day }));
}

/** The visits that a visit measures again, one behind the other; each once, should they run in a ring. */
function measuredBefore(visit: HistoryVisit, byId: ReadonlyMap<string, HistoryVisit>): readonly HistoryVisit[] {
  const before: HistoryVisit[] = [];
  const seen = new Set([visit.id]);
  let next = visit.afterVisit;
  while (next !== null && !seen.has(next)) {
    const found = byId.get(next);
    if (found === undefined) break;
    before.push(found);
    seen.add(next);
    next = found.afterVisit;
  }
  return before;
}
