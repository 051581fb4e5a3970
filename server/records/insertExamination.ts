/** One examination of a visit into its table, packed already; the first with its visit, further ones by themselves. */
import type { Changing } from "./database.ts";
import type { ExaminationRecord } from "./records.ts";

export async function insertExamination(
  changing: Changing,
  visitId: string,
  examination: ExaminationRecord & { readonly packed: Uint8Array },
): Promise<void> {
  const { ordinal, version, examinedAt, findings, packed } = examination;
  await changing
    .insertInto("examinations")
    .values({
      ...{ visit_id: visitId, ordinal, version, examined_at: examinedAt },
      ...{ findings: JSON.stringify(findings), packed },
    })
    .execute();
}
