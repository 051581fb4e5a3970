/** How examinations and their findings must look where an archive brings them in: as they go over the wire. */
import type { Examination } from "../../core/examination.ts";
import type { Findings } from "../../core/history/history.ts";
import type { ArchiveShapes } from "../../keeping/archive/visitIn.ts";
import { examinationSchema } from "./examination.ts";
import { findingsSchema } from "./findings.ts";

export const archiveShapes: ArchiveShapes = {
  isExamination: (json): json is Examination => examinationSchema.safeParse(json).success,
  isFindings: (json): json is Findings => findingsSchema.safeParse(json).success,
};
