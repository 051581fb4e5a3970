/**
 * The life of a board: its visits in order, parted into runs of wear by the works done on it.
 *
 * A dressing, a shaping or a new board ends one run and begins the next. A visit measures the board before the work that is
 * written down at it; a visit that says which one it measures again (`afterVisit`) measures it after that work, and so belongs to
 * the new run, at whichever of the two the work is written down.
 */
import type { HistoryVisit, WorkAtVisit, WorkDone } from "./history.ts";
import { inOrder, type VisitInOrder } from "./inOrder.ts";

export type PartingWork = WorkAtVisit["work"];

export type VisitOfLife = VisitInOrder & {
  readonly run: number;
  /** Hours played since the first visit of its run, or since the work that began it; null where nobody knows. */
  readonly hoursInRun: number | null;
};

export type Work = {
  readonly work: PartingWork;
  /** The visit that it is written down at. */
  readonly visit: HistoryVisit;
  readonly day: number;
  /** The run that it begins. */
  readonly run: number;
  /** The visit that measured the board just before it, and those that measured it again after it. */
  readonly before: HistoryVisit | null;
  readonly after: readonly HistoryVisit[];
};

export type Life = { readonly visits: readonly VisitOfLife[]; readonly works: readonly Work[] };

export function lifeOf(given: readonly HistoryVisit[]): Life {
  const ordered = inOrder(given);
  const earlier = new Map<string, HistoryVisit>();
  const visits: Omit<VisitOfLife, "hoursInRun">[] = [];
  const works: Work[] = [];
  let run = 0;
  for (const { visit, day } of ordered) {
    const before = visit.afterVisit === null ? null : (earlier.get(visit.afterVisit) ?? null);
    const work = partingWork(visit.workDone);
    const isDoneBefore = work !== null && visit.afterVisit !== null && isOneWork(work, before);
    if (work !== null && isDoneBefore && (before === null || partingWork(before.workDone) === null)) {
      run += 1;
      works.push({ work, visit, day, run, before, after: [visit] });
    }
    visits.push({ visit, day, run });
    if (work !== null && !isDoneBefore) {
      run += 1;
      const after = ordered.map((other) => other.visit).filter(({ afterVisit }) => afterVisit === visit.id);
      works.push({ work, visit, day, run, before: visit, after });
    }
    earlier.set(visit.id, visit);
  }
  return { visits: withHours(visits, works), works };
}

/** The same word at both visits is the same work; another word at the second is a further work, done after measuring. */
function isOneWork(work: PartingWork, before: HistoryVisit | null): boolean {
  const atFirst = before && partingWork(before.workDone);
  return atFirst === null || atFirst === work;
}

function partingWork(work: WorkDone): PartingWork | null {
  return work === "none" || work === "other" ? null : work;
}

/** Hours are counted from the beginning of each run; between a work and measuring again after it nobody plays. */
function withHours(visits: readonly Omit<VisitOfLife, "hoursInRun">[], works: readonly Work[]): readonly VisitOfLife[] {
  const measuredAgain = new Set(works.flatMap(({ after }) => after.map(({ id }) => id)));
  let hours: number | null = 0;
  return visits.map((one, i) => {
    const isFirst = i === 0 || visits[i - 1].run !== one.run;
    const played: number | null = measuredAgain.has(one.visit.id) || i === 0 ? 0 : one.visit.hoursPlayed;
    const until: number | null = isFirst ? 0 : hours;
    hours = until === null || played === null ? null : until + played;
    return { ...one, hoursInRun: hours };
  });
}
