/**
 * A visit's files examined with all that is known of the instrument: what keeping a visit and examining it again have in common.
 *
 * In: the files as pieces of bytes, settings said beside them, the instrument's record. Out: the examination with few points of a scan and its findings, ready to be
 * kept; or every fault together. Files that take longer than half a second wait for their turn and are examined on a thread apart.
 */
import type { SettingEntry } from "../core/board/settings.ts";
import type { Fault } from "../core/fault.ts";
import { findingsOf } from "../core/history/findings.ts";
import type { Answering } from "../examinerApart.ts";
import { areLong } from "../longFiles.ts";
import type { ExaminationMade, FilePart, InstrumentGiven } from "../records/records.ts";
import type { Keeping } from "./keeping.ts";
import { settingsTogether } from "./settingsTogether.ts";

/** Each file in pieces, as it came; null where there is none. */
export type FilesGiven = { readonly readings: readonly Uint8Array[] } & {
  readonly [part in Exclude<FilePart, "readings">]: readonly Uint8Array[] | null;
};

export type ExaminedForRecord =
  | { readonly outcome: "examined"; readonly made: ExaminationMade }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] };

export async function examineForRecord(
  keeping: Keeping,
  files: FilesGiven,
  settings: readonly SettingEntry[],
  record: InstrumentGiven,
): Promise<ExaminedForRecord> {
  const examine = (answering: Answering) => examineWith(answering, keeping, files, settings, record);
  const isLong = areLong([files.readings, files.thickness ?? [], files.rail ?? []]);
  return isLong ? keeping.inTurn(() => examine(keeping.examineApart())) : examine(keeping.examineHere());
}

async function examineWith(
  answering: Answering,
  { table }: Keeping,
  files: FilesGiven,
  settings: readonly SettingEntry[],
  record: InstrumentGiven,
): Promise<ExaminedForRecord> {
  try {
    for (const piece of files.readings) answering.readings.push(piece);
    if (files.thickness !== null) pushAll(answering.openThickness(), files.thickness);
    if (files.rail !== null) pushAll(answering.openRail(), files.rail);
    const { entries, fault } = settingsTogether(await answering.settingsInReadings(), settings, record, table);
    const answered = await answering.finish(entries, "few");
    if (answered.outcome === "faulty" || fault !== null) {
      const others = answered.outcome === "faulty" ? answered.faults : [];
      return { outcome: "faulty", faults: fault === null ? others : [fault, ...others] };
    }
    const examination = await answered.examination();
    return { outcome: "examined", made: { examination, findings: findingsOf(examination) } };
  } finally {
    answering.close();
  }
}

function pushAll(taker: { push(chunk: Uint8Array): void }, pieces: readonly Uint8Array[]): void {
  for (const piece of pieces) taker.push(piece);
}
