/** Visits as they were kept: looked up, listed newest first, and their notes changed by whoever knows how they stand. */
import { sql } from "kysely";
import { cursorAt, placeOf } from "./cursor.ts";
import type { Changing, Database } from "./database.ts";
import { historyVisitsOf } from "./historyVisits.ts";
import { lockInstrument } from "./instruments.ts";
import { numberKey } from "./numberKeys.ts";
import { renewOutlook } from "./outlooks.ts";
import type { OutlookOf, VisitNotes } from "./records.ts";
import type { Store } from "./store.ts";
import { noteColumns, visitRecords, visitRows } from "./visitRecords.ts";

type VisitQueries = Pick<Store, "visit" | "visits" | "historyVisits" | "changeVisit" | "visitsWithFile">;

export function visitQueries(database: Database): VisitQueries {
  return {
    visit: (instrumentNumber, id) =>
      database.read(async (asking) => {
        const rows = await visitRows(asking)
          .where("visits.id", "=", id)
          .where("number_key", "=", numberKey(instrumentNumber))
          .execute();
        return (await visitRecords(asking, rows))[0] ?? null;
      }),

    visits: (instrumentNumber, { after, limit }) =>
      database.read(async (asking) => {
        const list = `visits of ${numberKey(instrumentNumber)}`;
        const newestFirst = visitRows(asking)
          .where("number_key", "=", numberKey(instrumentNumber))
          .orderBy("visits.date", "desc")
          .orderBy("visits.ordinal", "desc")
          .limit(limit + 1);
        const [date, ordinal] = after === null ? ["", 0] : placeOf(list, after, ["", 0] as const);
        const rows = await (after === null
          ? newestFirst
          : newestFirst.where(sql<boolean>`(visits.date, visits.ordinal) < (${date}, ${sql.lit(ordinal)})`)
        ).execute();
        const told = rows.slice(0, limit);
        const last = told.at(-1);
        return {
          entries: await visitRecords(asking, told),
          next: rows.length > limit && last !== undefined ? cursorAt(list, [last.date, last.ordinal]) : null,
        };
      }),

    historyVisits: (instrumentNumber) =>
      database.read(async (asking) => {
        const instrument = await asking
          .selectFrom("instruments")
          .select("id")
          .where("number_key", "=", numberKey(instrumentNumber))
          .executeTakeFirst();
        return instrument === undefined ? [] : historyVisitsOf(asking, instrument.id);
      }),

    changeVisit: (instrumentNumber, id, revision, changes, outlookOf) =>
      database.change((changing) => changed(changing, instrumentNumber, id, revision, changes, outlookOf)),

    visitsWithFile: (sha256) =>
      database.read(async (asking) => {
        const holding = asking.selectFrom("visit_files").select("visit_files.visit_id").where("sha256", "=", sha256);
        const rows = await visitRows(asking)
          .where("visits.id", "in", holding)
          .orderBy("visits.recorded_at")
          .orderBy("visits.id")
          .execute();
        return visitRecords(asking, rows);
      }),
  };
}

async function changed(
  changing: Changing,
  instrumentNumber: string,
  id: string,
  revision: number,
  changes: Partial<VisitNotes>,
  outlookOf: OutlookOf,
): ReturnType<Store["changeVisit"]> {
  const instrument = await lockInstrument(changing, { number: instrumentNumber });
  if (instrument === null) return { outcome: "unknown" };
  const asIs = visitRows(changing).where("visits.id", "=", id).where("instrument_id", "=", instrument.id);
  const [visit] = await visitRecords(changing, await asIs.execute());
  if (visit === undefined) return { outcome: "unknown" };
  if (visit.revision !== revision) return { outcome: "changed meanwhile", now: visit };
  if (!(await mayFollow(changing, id, changes.afterVisit ?? null, instrument.id))) return { outcome: "unknown visit" };
  await changing
    .updateTable("visit_notes")
    .set({ ...noteColumns({ ...visit, ...changes }), revision: revision + 1 })
    .where("visit_id", "=", id)
    .execute();
  await renewOutlook(changing, instrument.id, outlookOf);
  const [after] = await visitRecords(changing, await asIs.execute());
  return { outcome: "changed", entry: after };
}

/** Whether a visit may be said to follow another of its instrument: not itself, nor one that follows it already. */
async function mayFollow(
  changing: Changing,
  id: string,
  afterVisit: string | null,
  instrumentId: string,
): Promise<boolean> {
  if (afterVisit === null) return true;
  const visits = await changing
    .selectFrom("visits")
    .innerJoin("visit_notes", "visit_notes.visit_id", "visits.id")
    .select(["id", "after_visit"])
    .where("instrument_id", "=", instrumentId)
    .execute();
  const follows = new Map(visits.map((visit) => [visit.id, visit.after_visit]));
  if (!follows.has(afterVisit)) return false;
  for (let before: string | null = afterVisit; before !== null; before = follows.get(before) ?? null) {
    if (before === id) return false;
  }
  return true;
}
