/** A visit of the records as it goes over the wire: in a list, whole with its examination, and what may be said about one. */
import { worksDone } from "../../core/history/history.ts";
import type { AlreadyKept } from "../../keeping/keepVisit.ts";
import {
  decisionsTaken,
  type ExaminationKept,
  fileParts,
  type VisitNotes,
  type VisitRecord,
} from "../../records/records.ts";
import type { KeptElsewhere } from "../problems.ts";
import { visitAddress } from "./addresses.ts";
import { examinationSchema } from "./examination.ts";
import { findingsSchema } from "./findings.ts";
import { daySchema } from "./history.ts";
import { instantSchema, revisionSchema } from "./instruments.ts";
import { z } from "./schema.ts";

const notes = {
  reason: z.string(),
  gauge: z.string(),
  rail: z.string(),
  humidityPercent: z.number().nullable(),
  hoursPlayed: z.number().nullable().openapi({ description: "Since the visit before." }),
  decisionTaken: z.enum(decisionsTaken).nullable(),
  workDone: z.enum(worksDone),
  workNotes: z.string(),
  afterVisit: z.string().nullable().openapi({ description: "The visit that this one measures again after the work." }),
  withdrawn: z.string().nullable().openapi({ description: "Why it does not count; null: it counts." }),
};

export const visitSummarySchema = z
  .object({
    id: z.string(),
    number: z.string(),
    date: daySchema,
    recordedAt: instantSchema,
    revision: revisionSchema,
    ...notes,
    version: z.string().openapi({ description: "Of the program that made the latest examination." }),
    findings: findingsSchema,
    href: z.string(),
  })
  .openapi("VisitSummary");

const givenFile = z.object({
  part: z.enum(fileParts),
  sha256: z.string(),
  byteCount: z.number().int(),
  href: z.string(),
});

const keptElsewhereSchema = z
  .array(z.object({ number: z.string(), date: daySchema, href: z.string() }))
  .openapi({ description: "Other visits that hold the same readings." });

export const visitSchema = visitSummarySchema
  .extend({
    given: z.object({ settings: z.record(z.string(), z.string()), files: z.array(givenFile) }),
    examined: z.object({ ordinal: z.number().int(), version: z.string(), at: instantSchema }),
    examination: examinationSchema,
    alreadyKept: keptElsewhereSchema.optional(),
  })
  .openapi("Visit");

export const visitsSchema = z.object({ visits: z.array(visitSummarySchema), next: z.string().nullable() });

const text = z.string({ error: "Give it as text." }).nullish();
const number = z.union([z.number(), z.string()], { error: "Give a number." }).nullish();

/** Null takes back what was there; what is left out stays (RFC 7396). */
export const visitChangesSchema = z
  .strictObject({
    ...{ reason: text, gauge: text, rail: text, humidityPercent: number, hoursPlayed: number, decisionTaken: text },
    ...{ workDone: text, workNotes: text, afterVisit: text, withdrawn: text },
  })
  .openapi("VisitChanges");

const examinationEntrySchema = z.object({
  ordinal: z.number().int(),
  version: z.string(),
  examinedAt: instantSchema,
  findings: findingsSchema,
  href: z.string(),
});

export const examinationsSchema = z.object({
  examinations: z.array(examinationEntrySchema),
  next: z.string().nullable(),
});

export const examinationKeptSchema = examinationEntrySchema.extend({ examination: examinationSchema });

export const examinedAgainSchema = z.object({
  ordinal: z.number().int(),
  version: z.string(),
  changes: z.array(
    z.object({ what: z.string(), before: z.string(), after: z.string(), isBeyondU: z.boolean().nullable() }),
  ),
});

export const playerGivenSchema = z.strictObject({ hand: text, notes: text }).openapi("PlayerGiven");
export const playerSchema = z
  .object({ hand: z.string(), notes: z.string(), revision: revisionSchema.nullable() })
  .openapi("Player", { description: "What concerns a person: kept apart, and erased alone." });

export function visitSummary(record: VisitRecord, base: string): z.infer<typeof visitSummarySchema> {
  const { id, instrumentNumber, date, recordedAt, revision, version, findings } = record;
  return {
    ...{ id, number: instrumentNumber, date, recordedAt, revision },
    ...notesOf(record),
    ...{ version, findings, href: visitAddress(base, instrumentNumber, id) },
  };
}

export function visitOnWire(record: VisitRecord, kept: ExaminationKept, base: string) {
  const summary = visitSummary(record, base);
  const files = record.files.map((file) => ({ ...file, href: `${summary.href}/${file.part}.csv` }));
  return {
    ...summary,
    given: { settings: record.settings, files },
    examined: { ordinal: kept.ordinal, version: kept.version, at: kept.examinedAt },
    examination: kept.examination,
  };
}

export function keptElsewhere(kept: readonly AlreadyKept[], base: string): KeptElsewhere[] {
  return kept.map(({ instrumentNumber, visitId, date }) => ({
    number: instrumentNumber,
    date,
    href: visitAddress(base, instrumentNumber, visitId),
  }));
}

function notesOf(record: VisitRecord): VisitNotes {
  const { reason, gauge, rail, humidityPercent, hoursPlayed, decisionTaken } = record;
  const { workDone, workNotes, afterVisit, withdrawn } = record;
  return {
    ...{ reason, gauge, rail, humidityPercent, hoursPlayed, decisionTaken },
    ...{ workDone, workNotes, afterVisit, withdrawn },
  };
}
