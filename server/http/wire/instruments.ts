/** An instrument of the records as it goes over the wire, and what a workshop may say about one. Dimensions by setting key, mm. */

import type { InstrumentTable } from "../../core/board/instrumentTable.ts";
import { kindAndSize } from "../../keeping/kindAndSize.ts";
import type { InstrumentRecord } from "../../records/records.ts";
import { instrumentAddress } from "./addresses.ts";
import { decision } from "./examination.ts";
import { daySchema } from "./history.ts";
import { z } from "./schema.ts";

export const revisionSchema = z.number().int().min(1).openapi({ description: "The ETag, and what If-Match says." });
export const instantSchema = z.string().openapi({ format: "date-time" });

const build = z.enum(["solid", "veneered", "dyed", "unknown"]);

export const instrumentSchema = z
  .object({
    number: z.string().openapi({ description: "The workshop's own; the same whatever its case and spaces." }),
    kind: z.enum(["violin", "viola", "cello", "bass"]),
    size: z.string(),
    label: z.string(),
    strings: z
      .string()
      .nullable()
      .openapi({ description: "Names where they differ from the usual ones, lowest first." }),
    build,
    valuable: z.boolean(),
    dimensions: z
      .record(z.string(), z.union([z.number(), z.string()]))
      .openapi({ description: "Dimensions and limits that differ from the table, by setting key." }),
    revision: revisionSchema,
    recordedAt: instantSchema,
    visits: z.number().int(),
    lastVisit: daySchema.nullable(),
    lastDecision: decision.nullable(),
    href: z.string(),
  })
  .openapi("Instrument");

export type InstrumentOnWire = z.infer<typeof instrumentSchema>;

export const instrumentsSchema = z.object({
  instruments: z.array(instrumentSchema),
  next: z.string().nullable().openapi({ description: "The address of the part that follows; null at the end." }),
});

const text = (example: string) => z.string({ error: "Give it as text." }).openapi({ example });

/** What may be said; null takes back what was there. */
const said = {
  size: text("1/2").nullish(),
  label: text("Loan store, shelf 3").nullish(),
  strings: text("C G D A E").nullish(),
  build: text("solid").nullish().openapi({ enum: build.options }),
  valuable: z.boolean({ error: "Give true or false." }).nullish(),
};
const dimension = z.union([z.number(), z.string()], { error: "Give a number." });
const dimensions = { error: 'Give an object of numbers by key, such as { "board_length": 690 }.' };

export const newInstrumentSchema = z
  .strictObject({
    number: z
      .string({ error: 'Give the workshop\'s own number as text, such as "C-07".' })
      .openapi({ example: "C-07" }),
    kind: z.string({ error: 'Give the kind as text, such as "cello".' }).openapi({ example: "cello" }),
    ...said,
    dimensions: z.record(z.string(), dimension, dimensions).nullish(),
  })
  .openapi("NewInstrument", { example: { number: "C-07", kind: "cello" } });

export const instrumentChangesSchema = z
  .strictObject({
    number: text("C-07").optional(),
    kind: text("cello").optional(),
    ...said,
    dimensions: z.record(z.string(), dimension.nullable(), dimensions).nullish(),
  })
  .openapi("InstrumentChanges", {
    description: "Merged into the record (RFC 7396): what is left out stays, null takes back, dimensions one by one.",
  });

export function instrumentOnWire(record: InstrumentRecord, base: string, table: InstrumentTable): InstrumentOnWire {
  const known = kindAndSize(table, record.instrument, record.strings);
  if (known.outcome === "unknown") throw new Error(`the records hold an instrument that is in no table`);
  const { number, label, strings, build, valuable, revision, recordedAt, visits, lastVisit, lastDecision } = record;
  return {
    ...{ number, kind: known.kind, size: known.size, label, strings, build, valuable },
    dimensions: Object.fromEntries(Object.entries(record.dimensions).map(([key, said]) => [key, asNumber(said)])),
    ...{ revision, recordedAt, visits, lastVisit, lastDecision },
    href: instrumentAddress(base, number),
  };
}

/** A number where the text is one exactly; else as it was written. */
function asNumber(written: string): number | string {
  return String(Number(written)) === written ? Number(written) : written;
}
