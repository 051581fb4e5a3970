/** Visits as records, out of the four tables that hold their parts. */
import type { Selectable } from "kysely";
import type { Asking } from "./database.ts";
import type { DecisionTaken, FilePart, VisitNotes, VisitRecord } from "./records.ts";
import type { VisitNotesTable } from "./tables.ts";

export function visitRows(asking: Asking) {
  return asking
    .selectFrom("visits")
    .innerJoin("instruments", "instruments.id", "visits.instrument_id")
    .innerJoin("visit_notes", "visit_notes.visit_id", "visits.id")
    .innerJoin("examinations", (join) =>
      join
        .onRef("examinations.visit_id", "=", "visits.id")
        .onRef("examinations.ordinal", "=", "visit_notes.examinations"),
    )
    .selectAll("visit_notes")
    .select([
      "visits.id",
      "visits.instrument_id",
      "visits.ordinal",
      "visits.date",
      "visits.settings",
      "visits.recorded_at",
      "instruments.number",
      "examinations.version",
      "examinations.findings",
    ]);
}

type VisitRow = Awaited<ReturnType<ReturnType<typeof visitRows>["execute"]>>[number];

/** In the order of the rows. */
export async function visitRecords(asking: Asking, rows: readonly VisitRow[]): Promise<readonly VisitRecord[]> {
  if (rows.length === 0) return [];
  const files = await asking
    .selectFrom("visit_files")
    .innerJoin("files", "files.sha256", "visit_files.sha256")
    .select(["visit_id", "part", "files.sha256", "byte_count"])
    .where(
      "visit_id",
      "in",
      rows.map(({ id }) => id),
    )
    .execute();
  return rows.map((row) => ({
    id: row.id,
    instrumentNumber: row.number,
    date: row.date,
    settings: JSON.parse(row.settings),
    ...notesOf(row),
    files: partsInOrder.flatMap((part) =>
      files
        .filter((file) => file.visit_id === row.id && file.part === part)
        .map(({ sha256, byte_count }) => ({ part, sha256, byteCount: byte_count })),
    ),
    revision: row.revision,
    recordedAt: row.recorded_at,
    version: row.version,
    findings: JSON.parse(row.findings),
  }));
}

const partsInOrder: readonly FilePart[] = ["readings", "thickness", "rail"];

function notesOf(row: Selectable<VisitNotesTable>): VisitNotes {
  return {
    reason: row.reason,
    gauge: row.gauge,
    rail: row.rail,
    humidityPercent: row.humidity_percent,
    hoursPlayed: row.hours_played,
    decisionTaken: row.decision_taken as DecisionTaken | null,
    workDone: row.work_done as VisitNotes["workDone"],
    workNotes: row.work_notes,
    afterVisit: row.after_visit,
    withdrawn: row.withdrawn,
  };
}

export function noteColumns(notes: VisitNotes) {
  return {
    reason: notes.reason,
    gauge: notes.gauge,
    rail: notes.rail,
    humidity_percent: notes.humidityPercent,
    hours_played: notes.hoursPlayed,
    decision_taken: notes.decisionTaken,
    work_done: notes.workDone,
    work_notes: notes.workNotes,
    after_visit: notes.afterVisit,
    withdrawn: notes.withdrawn,
  };
}
