/**
 * A visit's readings examined once more by this version of the program, and what that changes.
 *
 * In: instrument and visit. Out: the further examination, which now counts, beside those that stand, and what differs from the
 * latest before it; or the faults, where this version refuses what an older one took: then all stays as it was.
 *
 * Files and settings are those of the visit; what neither says is taken from the instrument's record as it stands now, so that a
 * dimension put right in the record puts right what its visits are held against, too.
 */
import type { Fault } from "../core/fault.ts";
import { outlookOf } from "../core/history/historyOf.ts";
import { type Change, whatChanged } from "../core/history/whatChanged.ts";
import type { ExaminationKept, FilePart, VisitRecord } from "../records/records.ts";
import type { Store } from "../records/store.ts";
import { settingsFromOutside } from "../settingsFromOutside.ts";
import { examineForRecord } from "./examineForRecord.ts";
import type { Keeping } from "./keeping.ts";

export type ExaminedAgain =
  | { readonly outcome: "examined again"; readonly kept: ExaminationKept; readonly changes: readonly Change[] }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] }
  | { readonly outcome: "unknown" };

export async function examineAgain(
  keeping: Keeping,
  instrumentNumber: string,
  visitId: string,
): Promise<ExaminedAgain> {
  const { store } = keeping;
  const record = await store.instrument(instrumentNumber);
  const visit = await store.visit(instrumentNumber, visitId);
  const before = await store.examination(visitId);
  if (record === null || visit === null || before === null) return { outcome: "unknown" };

  const readings = await pieces(store, visit, "readings");
  if (readings === null) throw new Error(`visit ${visit.id} has no readings`);
  const [thickness, rail] = [await pieces(store, visit, "thickness"), await pieces(store, visit, "rail")];
  const settings = settingsFromOutside(Object.entries(visit.settings));
  const examined = await examineForRecord(keeping, { readings, thickness, rail }, settings, record);
  if (examined.outcome === "faulty") return examined;

  const kept = await store.addExamination(visit.id, examined.made, outlookOf);
  if (kept === null) return { outcome: "unknown" };
  return { outcome: "examined again", kept, changes: whatChanged(before.examination, kept.examination) };
}

/** The whole file as one piece; null where none was given. A file that the visit names and the store lacks is damage. */
async function pieces(store: Store, visit: VisitRecord, part: FilePart): Promise<readonly Uint8Array[] | null> {
  const file = visit.files.find((one) => one.part === part);
  if (file === undefined) return null;
  const bytes = await store.fileBytes(file.sha256);
  if (bytes === null) throw new Error(`the store lacks the ${part} of visit ${visit.id}`);
  return [bytes];
}
