/**
 * Records -> the JSON files of an archive, two blanks a level, a new line at the end: the same record makes the same bytes.
 *
 * What the store works out from others (how many visits, the outlook) is left out: it is worked out again where the archive is
 * read. Lengths in mm; every `u` is expanded (k = 2). The other way round: recordsFromJson.ts.
 */
import type { ExaminationRecord, InstrumentRecord, PlayerNotes, VisitRecord } from "../../records/records.ts";
import { givenFileName } from "./memberNames.ts";

/** `visitFolders`: names of the visits' folders, oldest first, in the order in which they were kept. */
export function instrumentJson(record: InstrumentRecord, visitFolders: readonly string[]): Uint8Array {
  const { id, number, instrument, label, strings, build, valuable, dimensions, revision, recordedAt } = record;
  const about = { id, number, instrument, label, strings, build, valuable, dimensions, revision, recordedAt };
  return asJson({ ...about, visits: visitFolders });
}

export function visitJson(visit: VisitRecord, examinations: readonly ExaminationRecord[]): Uint8Array {
  const { id, instrumentNumber, date, recordedAt, revision, settings, files } = visit;
  const { reason, gauge, rail, humidityPercent, hoursPlayed, decisionTaken, workDone, workNotes } = visit;
  return asJson({
    id,
    number: instrumentNumber,
    date,
    recordedAt,
    revision,
    notes: {
      reason,
      gauge,
      rail,
      humidityPercent,
      hoursPlayed,
      decisionTaken,
      workDone,
      workNotes,
      afterVisit: visit.afterVisit,
      withdrawn: visit.withdrawn,
    },
    settings,
    files: files.map(({ part, sha256, byteCount }) => ({ part, name: givenFileName(part), sha256, byteCount })),
    examinations: examinations.map(({ ordinal, version, examinedAt, findings }) => ({
      ordinal,
      version,
      examinedAt,
      findings,
    })),
  });
}

export function playerJson({ hand, notes, revision }: PlayerNotes): Uint8Array {
  return asJson({ hand, notes, revision });
}

export function asJson(content: unknown): Uint8Array {
  return Buffer.from(`${JSON.stringify(content, null, 2)}\n`);
}
