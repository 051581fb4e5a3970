/**
 * The invented loan store that comes with the program: its instruments, and where the files of their visits stand.
 *
 * In: the folder that holds `histories.json`. Out: instruments and visits, oldest first, as a workshop would say them; nothing is read or examined yet.
 * Throws if the list is not as it should be: a mistake in the program's own files.
 */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { z } from "zod";

const fileName = z.string().regex(/^(\.\.\/)?[\w-]+(\.[\w-]+)*\.csv$/);
const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);

const visitSchema = z.strictObject({
  date: day,
  readings: fileName,
  thickness: fileName.optional(),
  rail: fileName.optional(),
  /** The day of the visit that this one measures again. */
  after: day.optional(),
  notes: z.record(z.string(), z.union([z.string(), z.number()])),
});

const listSchema = z.array(
  z.strictObject({
    number: z.string(),
    title: z.string(),
    instrument: z.string(),
    build: z.string(),
    valuable: z.boolean(),
    dimensions: z.record(z.string(), z.string()),
    visits: z.array(visitSchema).min(1),
  }),
);

export type HistoryListed = z.infer<typeof listSchema>[number];
export type VisitListed = HistoryListed["visits"][number];

/** Paths are made whole; an empty list where the folder has none. */
export function loadHistories(folder: string): readonly HistoryListed[] {
  const listPath = join(folder, "histories.json");
  if (!existsSync(listPath)) return [];
  return listSchema.parse(JSON.parse(readFileSync(listPath, "utf8"))).map((instrument) => ({
    ...instrument,
    visits: instrument.visits.map((visit) => ({
      ...visit,
      readings: join(folder, visit.readings),
      ...(visit.thickness === undefined ? {} : { thickness: join(folder, visit.thickness) }),
      ...(visit.rail === undefined ? {} : { rail: join(folder, visit.rail) }),
    })),
  }));
}
