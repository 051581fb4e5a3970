/**
 * The example boards that come with the program: read from the folder's list.
 *
 * In: the folder that holds `examples.json`. Out: who each board is and where its files stand.
 * Throws if the list or a file is not as it should be: a mistake in the program's own files.
 */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { z } from "zod";

export type Example = {
  readonly id: string;
  readonly number: string;
  readonly title: string;
  readonly story: string;
  readonly readingsPath: string;
  readonly thicknessPath: string | null;
  /** The error profile of the rail it was read over. */
  readonly railPath: string | null;
};

const fileName = z.string().regex(/^[\w-]+(\.[\w-]+)*\.csv$/);

const listSchema = z.array(
  z.object({
    name: z.string().regex(/^[\w-]+$/),
    number: z.string(),
    title: z.string(),
    story: z.string(),
    readings: fileName,
    thickness: fileName.nullish(),
    rail: fileName.nullish(),
  }),
);

/** An empty list where the folder has none. */
export function loadExamples(folder: string): readonly Example[] {
  const listPath = join(folder, "examples.json");
  if (!existsSync(listPath)) return [];
  return listSchema.parse(JSON.parse(readFileSync(listPath, "utf8"))).map((entry) => ({
    id: entry.name,
    number: entry.number,
    title: entry.title,
    story: entry.story,
    readingsPath: join(folder, entry.readings),
    thicknessPath: entry.thickness ? join(folder, entry.thickness) : null,
    railPath: entry.rail ? join(folder, entry.rail) : null,
  }));
}
