/**
 * The JSON files of an archive -> what they say, by shape only. What the words and figures may be is checked like what comes in by
 * the door (checkedRecords.ts). The other way round: recordsAsJson.ts. Lengths in mm.
 */
import { z } from "zod";
import { fileParts } from "../../records/records.ts";

const text = z.string().max(20_000);
const texts = z.record(z.string().max(200), text);
const id = z.uuid();
const count = z
  .number()
  .int()
  .min(1)
  .max(2 ** 31 - 1);
/** As JavaScript writes an instant: "2026-11-25T09:30:00.000Z". */
const instant = z.iso.datetime({ precision: 3 });

export const archiveAbout = z.object({
  archive: z.literal("Boardtrue records"),
  form: count,
  withPlayers: z.boolean(),
});

export const instrumentFile = z.strictObject({
  id,
  number: text,
  instrument: text,
  label: text,
  strings: text.nullable(),
  build: text,
  valuable: z.boolean(),
  dimensions: texts,
  revision: count,
  recordedAt: instant,
  visits: z.array(z.string().regex(/^[\w-]{1,100}$/)),
});

const note = text.nullable();
const measure = z.number().nullable();

export const visitFile = z.strictObject({
  id,
  number: text,
  date: text,
  recordedAt: instant,
  revision: count,
  notes: z.strictObject({
    reason: text,
    gauge: text,
    rail: text,
    humidityPercent: measure,
    hoursPlayed: measure,
    decisionTaken: note,
    workDone: text,
    workNotes: text,
    afterVisit: id.nullable(),
    withdrawn: note,
  }),
  settings: texts,
  files: z.array(
    z.strictObject({
      part: z.enum(fileParts),
      name: text,
      sha256: z.string().regex(/^[0-9a-f]{64}$/),
      byteCount: z.number().int().nonnegative(),
    }),
  ),
  examinations: z
    .array(
      z.strictObject({
        ordinal: count,
        version: z.string().min(1).max(100),
        examinedAt: instant,
        findings: z.unknown(),
      }),
    )
    .min(1),
});

export const playerFile = z.strictObject({ hand: text, notes: text, revision: count });

export type InstrumentFile = z.infer<typeof instrumentFile>;
export type VisitFile = z.infer<typeof visitFile>;

export type Parsed<Shape> =
  | { readonly outcome: "parsed"; readonly parsed: Shape }
  | { readonly outcome: "faulty"; readonly why: string };

/** `why` says what is wrong and where, for whoever looks into the file. */
export function parsedJson<Shape>(bytes: Uint8Array, shape: z.ZodType<Shape>): Parsed<Shape> {
  const json = jsonOf(bytes);
  if (json === undefined) return { outcome: "faulty", why: "it is no JSON in UTF-8" };
  const read = shape.safeParse(json);
  if (read.success) return { outcome: "parsed", parsed: read.data };
  const where = read.error.issues[0]?.path.map(String).join(".") ?? "";
  return { outcome: "faulty", why: `it is not written as records are (look at "${where.slice(0, 80)}")` };
}

/** Undefined where it is none; JSON itself has no such value. */
export function jsonOf(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
  } catch {
    return undefined;
  }
}
