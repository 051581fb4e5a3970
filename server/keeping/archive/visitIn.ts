/**
 * One visit's folder in an archive -> the whole visit as the store takes it: words, files with their hashes, every examination.
 *
 * Rejects with Unreadable, in words, where anything of it is missing, damaged or not as it may be: a visit comes in whole or not
 * at all.
 */
import { createHash } from "node:crypto";
import type { Examination } from "../../core/examination.ts";
import type { Findings } from "../../core/history/history.ts";
import type { ExaminationKept, GivenFile, PlayerNotes, VisitBrought } from "../../records/records.ts";
import type { ArchiveIn } from "./archiveIn.ts";
import { checkedPlayer, checkedVisit } from "./checkedRecords.ts";
import { examinationName, givenFileName, names } from "./memberNames.ts";
import { jsonOf, parsedJson, playerFile, type VisitFile, visitFile } from "./recordsFromJson.ts";
import { Unreadable } from "./zipIn.ts";

/** Most bytes of one file, unpacked; what is in memory at once is a few times the files of one visit. */
export type MemberLimits = {
  /** Of readings, thickness and rail each: what an upload may have. */
  readonly givenBytes: number;
  readonly recordBytes: number;
  readonly examinationBytes: number;
  /** Of all examinations of one visit together. */
  readonly examinationsBytes: number;
};

/** How an examination and its findings must look; the description of the wire tells. */
export type ArchiveShapes = {
  isExamination(json: unknown): json is Examination;
  isFindings(json: unknown): json is Findings;
};

export async function readVisitFile(archive: ArchiveIn, folder: string, limits: MemberLimits): Promise<VisitFile> {
  const read = parsedJson(await archive.bytes(`${folder}${names.visit}`, limits.recordBytes), visitFile);
  if (read.outcome === "faulty") throw new Unreadable(`${names.visit}: ${read.why}`);
  return read.parsed;
}

export async function visitIn(
  archive: ArchiveIn,
  folder: string,
  shapes: ArchiveShapes,
  limits: MemberLimits,
  now: Date,
): Promise<VisitBrought> {
  const file = await readVisitFile(archive, folder, limits);
  return {
    ...checkedVisit(file, now),
    id: file.id,
    recordedAt: file.recordedAt,
    revision: file.revision,
    files: await givenFiles(archive, folder, file, limits),
    examinations: await examinationsOf(archive, folder, file, shapes, limits),
    player: await playerOf(archive, folder, limits),
  };
}

async function givenFiles(
  archive: ArchiveIn,
  folder: string,
  { files }: VisitFile,
  { givenBytes }: MemberLimits,
): Promise<readonly GivenFile[]> {
  const parts = files.map(({ part }) => part);
  if (!parts.includes("readings")) throw new Unreadable(`${names.visit}: it names no readings`);
  if (new Set(parts).size < parts.length) throw new Unreadable(`${names.visit}: it names a file twice`);
  const given: GivenFile[] = [];
  for (const { part, sha256 } of files) {
    const bytes = await archive.bytes(`${folder}${givenFileName(part)}`, givenBytes);
    if (createHash("sha256").update(bytes).digest("hex") !== sha256) {
      throw new Unreadable(`${givenFileName(part)}: it is not the file that the visit names (its check sum differs)`);
    }
    given.push({ part, sha256, bytes });
  }
  return given;
}

async function examinationsOf(
  archive: ArchiveIn,
  folder: string,
  { examinations }: VisitFile,
  shapes: ArchiveShapes,
  limits: MemberLimits,
): Promise<readonly ExaminationKept[]> {
  const kept: ExaminationKept[] = [];
  let bytesLeft = limits.examinationsBytes;
  for (const [index, { findings, ...about }] of examinations.entries()) {
    if (about.ordinal !== index + 1) throw new Unreadable(`${names.visit}: its examinations are not in order`);
    if (!shapes.isFindings(findings))
      throw new Unreadable(`${names.visit}: its findings are not written as findings are`);
    const name = examinationName(about.ordinal);
    const bytes = await archive.bytes(`${folder}${name}`, Math.min(limits.examinationBytes, bytesLeft));
    bytesLeft -= bytes.length;
    const examination = jsonOf(bytes);
    if (!shapes.isExamination(examination))
      throw new Unreadable(`${name}: it is no examination as this version knows them`);
    kept.push({ ...about, findings, examination });
  }
  return kept;
}

async function playerOf(
  archive: ArchiveIn,
  folder: string,
  { recordBytes }: MemberLimits,
): Promise<PlayerNotes | null> {
  const path = `${folder}${names.player}`;
  if (!archive.has(path)) return null;
  const read = parsedJson(await archive.bytes(path, recordBytes), playerFile);
  if (read.outcome === "faulty") throw new Unreadable(`${names.player}: ${read.why}`);
  return checkedPlayer(read.parsed);
}
