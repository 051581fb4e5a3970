/** The visits of an instrument that count, brought down to what history needs: oldest first, each with its latest findings. */
import type { HistoryVisit } from "../core/history/history.ts";
import type { Asking } from "./database.ts";

export async function historyVisitsOf(asking: Asking, instrumentId: string): Promise<readonly HistoryVisit[]> {
  const rows = await asking
    .selectFrom("visits")
    .innerJoin("visit_notes", "visit_notes.visit_id", "visits.id")
    .innerJoin("examinations", (join) =>
      join
        .onRef("examinations.visit_id", "=", "visits.id")
        .onRef("examinations.ordinal", "=", "visit_notes.examinations"),
    )
    .select(["visits.id", "date", "hours_played", "work_done", "after_visit", "findings"])
    .where("instrument_id", "=", instrumentId)
    .where("withdrawn", "is", null)
    .orderBy("date")
    .orderBy("visits.ordinal")
    .execute();
  return rows.map((row) => ({
    id: row.id,
    date: row.date,
    hoursPlayed: row.hours_played,
    workDone: row.work_done as HistoryVisit["workDone"],
    afterVisit: row.after_visit,
    findings: JSON.parse(row.findings),
  }));
}
