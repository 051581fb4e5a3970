/**
 * A visit kept: files, visit, notes, examinations, the player's notes and the instrument's outlook, all in one transaction.
 *
 * The instrument's row is locked first, so that two visits kept at once neither lose one another's outlook nor both come in where they
 * are the same: a digest of day, settings and files tells that. Files are kept by their hash, once however often they are given.
 */
import { randomUUID } from "node:crypto";
import type { Changing, Database } from "./database.ts";
import { insertExamination } from "./insertExamination.ts";
import { lockInstrument } from "./instruments.ts";
import { numberKey } from "./numberKeys.ts";
import { renewOutlook } from "./outlooks.ts";
import { type PackedVisit, packVisit } from "./packedVisit.ts";
import type { NewVisit, OutlookOf, VisitBrought, VisitRecord } from "./records.ts";
import type { Kept, Store } from "./store.ts";
import { noteColumns, visitRecords, visitRows } from "./visitRecords.ts";

export function keepingVisits(database: Database, now: () => string): Pick<Store, "keepVisit" | "importVisit"> {
  return {
    async keepVisit(instrumentNumber, visit, outlookOf) {
      // Packed before the transaction, so that it holds its lock no longer than it must.
      const ready = await packVisit(broughtNow(visit, now()));
      return database.change((changing) => keep(changing, instrumentNumber, ready, outlookOf));
    },

    async importVisit(instrumentNumber, brought, outlookOf) {
      const ready = await packVisit(brought);
      try {
        return await database.change(async (changing) => {
          const [holder] = await visitRows(changing).where("visits.id", "=", brought.id).execute();
          if (holder === undefined) return keep(changing, instrumentNumber, ready, outlookOf);
          if (numberKey(holder.number) !== numberKey(instrumentNumber)) return { outcome: "id taken" };
          return { outcome: "there already", visit: await theVisit(changing, brought.id) };
        });
      } catch (error) {
        // Brought for another instrument at the same moment.
        if (database.isTaken(error)) return { outcome: "id taken" };
        throw error;
      }
    },
  };
}

/** A new visit is like one brought from elsewhere, with an id of its own and its first examination. */
function broughtNow({ examination, findings, player, ...visit }: NewVisit, recordedAt: string): VisitBrought {
  return {
    ...visit,
    id: randomUUID(),
    recordedAt,
    revision: 1,
    player: player === null ? null : { ...player, revision: 1 },
    examinations: [{ ordinal: 1, version: examination.version, examinedAt: recordedAt, findings, examination }],
  };
}

async function keep(
  changing: Changing,
  instrumentNumber: string,
  visit: PackedVisit,
  outlookOf: OutlookOf,
): Promise<Kept> {
  const instrument = await lockInstrument(changing, { number: instrumentNumber });
  if (instrument === null) return { outcome: "unknown instrument" };
  const same = await changing
    .selectFrom("visits")
    .select("id")
    .where("instrument_id", "=", instrument.id)
    .where("digest", "=", visit.digest)
    .executeTakeFirst();
  if (same !== undefined) return { outcome: "there already", visit: await theVisit(changing, same.id) };
  if (!(await isOfInstrument(changing, visit.notes.afterVisit, instrument.id))) return { outcome: "unknown visit" };

  const ordinal = instrument.kept_visits + 1;
  await changing.updateTable("instruments").set({ kept_visits: ordinal }).where("id", "=", instrument.id).execute();
  await changing
    .insertInto("visits")
    .values({
      id: visit.id,
      instrument_id: instrument.id,
      ordinal,
      date: visit.date,
      settings: JSON.stringify(visit.settings),
      digest: visit.digest,
      recorded_at: visit.recordedAt,
    })
    .execute();
  await insertParts(changing, visit);
  await renewOutlook(changing, instrument.id, outlookOf);
  return { outcome: "kept", visit: await theVisit(changing, visit.id) };
}

async function insertParts(changing: Changing, visit: PackedVisit): Promise<void> {
  await changing
    .insertInto("visit_notes")
    .values({
      visit_id: visit.id,
      ...noteColumns(visit.notes),
      revision: visit.revision,
      examinations: visit.examinations.length,
      player_revision: visit.player?.revision ?? 0,
    })
    .execute();
  for (const file of visit.files) {
    await changing
      .insertInto("files")
      .values({ sha256: file.sha256, byte_count: file.byteCount, packed: file.packed })
      .onConflict((conflict) => conflict.column("sha256").doNothing())
      .execute();
    await changing
      .insertInto("visit_files")
      .values({ visit_id: visit.id, part: file.part, sha256: file.sha256 })
      .execute();
  }
  for (const examination of visit.examinations) await insertExamination(changing, visit.id, examination);
  if (visit.player !== null) {
    const { hand, notes, revision } = visit.player;
    await changing.insertInto("player_notes").values({ visit_id: visit.id, hand, notes, revision }).execute();
  }
}

async function theVisit(changing: Changing, id: string): Promise<VisitRecord> {
  const [visit] = await visitRecords(changing, await visitRows(changing).where("visits.id", "=", id).execute());
  return visit;
}

/** Whether a visit is one of the instrument's; none is fine. */
async function isOfInstrument(changing: Changing, visitId: string | null, instrumentId: string): Promise<boolean> {
  if (visitId === null) return true;
  const visit = await changing
    .selectFrom("visits")
    .select("id")
    .where("id", "=", visitId)
    .where("instrument_id", "=", instrumentId)
    .executeTakeFirst();
  return visit !== undefined;
}
