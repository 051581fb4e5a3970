/**
 * The invented loan store, to play with: instruments and visits out of the program's own files, kept in a store like any other.
 *
 * In: an empty store, what it takes to keep a visit, the list of histories. Every visit is examined by this very program, one after the other,
 * and between two of them everything else gets its turn; the store can be looked at from the first one on. Every label begins with "Invented", so
 * nobody takes it for a workshop's own. Throws where a file of the program's own is refused: a mistake in the program.
 */
import { readFile } from "node:fs/promises";
import { setImmediate } from "node:timers/promises";
import { faultInWords } from "../core/fault.ts";
import type { HistoryListed, VisitListed } from "../exampleHistories.ts";
import { instrumentGiven } from "./instrumentGiven.ts";
import type { Keeping } from "./keeping.ts";
import { keepVisit, type VisitKept } from "./keepVisit.ts";

/** All instruments first, then their visits, instrument by instrument in the order of the list; stops where `signal` says so. */
export async function seedLoanStore(
  keeping: Keeping,
  histories: readonly HistoryListed[],
  signal?: AbortSignal,
): Promise<void> {
  // By this clock no visit lies ahead, whatever the machine's own says.
  const lastDay = histories
    .flatMap(({ visits }) => visits.map(({ date }) => date))
    .sort()
    .at(-1);
  const then = lastDay === undefined ? keeping.now() : new Date(lastDay);
  const atTheTime: Keeping = { ...keeping, now: () => then };
  for (const history of histories) await addInstrument(keeping, history);
  for (const history of histories) {
    const ids = new Map<string, string>();
    for (const visit of history.visits) {
      await setImmediate();
      if (signal?.aborted) return;
      ids.set(visit.date, await addVisit(atTheTime, history, visit, ids));
    }
  }
}

async function addInstrument({ store, table }: Keeping, history: HistoryListed): Promise<void> {
  const { number, title, instrument, build, valuable, dimensions } = history;
  const said = { number, kind: instrument, label: `Invented: ${title}`, build, valuable, dimensions };
  const checked = instrumentGiven(said, table);
  if (checked.outcome === "faulty") throw new Error(`${number}: ${checked.faults.map(faultInWords).join(" ")}`);
  await store.addInstrument(checked.given);
}

/** The visit's id. */
async function addVisit(
  keeping: Keeping,
  { number }: HistoryListed,
  visit: VisitListed,
  ids: ReadonlyMap<string, string>,
): Promise<string> {
  const kept = await keepVisit(keeping, {
    instrumentNumber: number,
    date: visit.date,
    files: {
      readings: [await readFile(visit.readings)],
      thickness: visit.thickness === undefined ? null : [await readFile(visit.thickness)],
      rail: visit.rail === undefined ? null : [await readFile(visit.rail)],
    },
    settings: {},
    notes: { ...visit.notes, afterVisit: idOf(visit.after, ids) },
    player: null,
    same: "keep",
  });
  if (kept.outcome === "kept" || kept.outcome === "there already") return kept.visit.id;
  throw new Error(`${number}, ${visit.date}: ${whyNot(kept)}`);
}

function idOf(date: string | undefined, ids: ReadonlyMap<string, string>): string | null {
  if (date === undefined) return null;
  const id = ids.get(date);
  if (id === undefined) throw new Error(`no visit of ${date} stands before the one that measures it again`);
  return id;
}

function whyNot(kept: VisitKept): string {
  return kept.outcome === "faulty" ? kept.faults.map(faultInWords).join(" ") : kept.outcome;
}
