/** An archive brought in, as the wire tells it; and how examinations and findings in it must look: as they go over the wire. */
import type { Examination } from "../../core/examination.ts";
import type { Findings } from "../../core/history/history.ts";
import type { Imported } from "../../keeping/archive/importArchive.ts";
import type { ArchiveShapes } from "../../keeping/archive/visitIn.ts";
import { examinationSchema } from "./examination.ts";
import { findingsSchema } from "./findings.ts";
import { z } from "./schema.ts";

export const archiveShapes: ArchiveShapes = {
  isExamination: (json): json is Examination => examinationSchema.safeParse(json).success,
  isFindings: (json): json is Findings => findingsSchema.safeParse(json).success,
};

const count = z.object({ instruments: z.number().int(), visits: z.number().int() });

export const importedSchema = z
  .object({
    added: count,
    alreadyThere: count,
    refused: count,
    remarks: z.array(
      z.object({
        instrument: z.string(),
        visit: z.string().nullable(),
        outcome: z.enum(["added", "there already", "refused"]),
        says: z.string().nullable(),
      }),
    ),
  })
  .openapi("Imported", {
    description: "What came of an archive; remarks say what was refused or differs, the first thousand of them.",
  });

export function importedOnWire({
  added,
  alreadyThere,
  refused,
  remarks,
}: Extract<Imported, { outcome: "taken in" }>): z.infer<typeof importedSchema> {
  return { added, alreadyThere, refused, remarks: [...remarks] };
}
