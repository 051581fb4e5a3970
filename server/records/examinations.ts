/** Examinations of a visit's readings: the first and every further one, each kept beside those before it. */
import { cursorAt, placeOf } from "./cursor.ts";
import type { Database } from "./database.ts";
import { insertExamination } from "./insertExamination.ts";
import { lockInstrument } from "./instruments.ts";
import { packExamination, unpackExamination } from "./keptExamination.ts";
import { renewOutlook } from "./outlooks.ts";
import { type Store, StoreUnavailable } from "./store.ts";

type ExaminationQueries = Pick<Store, "examinations" | "examination" | "addExamination">;

export function examinationQueries(database: Database, now: () => string): ExaminationQueries {
  return {
    examinations: (visitId, { after, limit }) =>
      database.read(async (asking) => {
        const list = `examinations of ${visitId}`;
        const [last] = after === null ? [0] : placeOf(list, after, [0] as const);
        const rows = await asking
          .selectFrom("examinations")
          .select(["ordinal", "version", "examined_at", "findings"])
          .where("visit_id", "=", visitId)
          .where("ordinal", ">", last)
          .orderBy("ordinal")
          .limit(limit + 1)
          .execute();
        const told = rows.slice(0, limit);
        return {
          entries: told.map(({ ordinal, version, examined_at, findings }) => ({
            ordinal,
            version,
            examinedAt: examined_at,
            findings: JSON.parse(findings),
          })),
          next: rows.length > limit ? cursorAt(list, [told[told.length - 1].ordinal]) : null,
        };
      }),

    async examination(visitId, ordinal) {
      const row = await database.read((asking) => {
        const ofVisit = asking.selectFrom("examinations").selectAll().where("visit_id", "=", visitId);
        return (ordinal === undefined ? ofVisit : ofVisit.where("ordinal", "=", ordinal))
          .orderBy("ordinal", "desc")
          .limit(1)
          .executeTakeFirst();
      });
      if (row === undefined) return null;
      const examination = await unpackExamination(row.packed).catch((cause: unknown) => {
        throw new StoreUnavailable("damaged", { cause });
      });
      return {
        ordinal: row.ordinal,
        version: row.version,
        examinedAt: row.examined_at,
        findings: JSON.parse(row.findings),
        examination,
      };
    },

    async addExamination(visitId, { examination, findings }, outlookOf) {
      const packed = await packExamination(examination);
      return database.change(async (changing) => {
        const visit = await changing
          .selectFrom("visits")
          .select("instrument_id")
          .where("id", "=", visitId)
          .executeTakeFirst();
        if (visit === undefined) return null;
        await lockInstrument(changing, { id: visit.instrument_id });
        const { examinations: ordinal } = await changing
          .updateTable("visit_notes")
          .set(({ eb }) => ({ examinations: eb("examinations", "+", 1) }))
          .where("visit_id", "=", visitId)
          .returning("examinations")
          .executeTakeFirstOrThrow();
        const { version } = examination;
        const examinedAt = now();
        await insertExamination(changing, visitId, { ordinal, version, examinedAt, findings, packed });
        await renewOutlook(changing, visit.instrument_id, outlookOf);
        return { ordinal, version, examinedAt, findings, examination: await unpackExamination(packed) };
      });
    },
  };
}
