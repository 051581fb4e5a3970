/**
 * A visit made ready for its transaction: files and examinations packed, its files in the order of their hashes (so that two who give
 * the same files wait for one another in one order), and the digest by which the same visit is recognised.
 */
import { packExamination } from "./keptExamination.ts";
import { packed, sha256Of } from "./packed.ts";
import type { ExaminationRecord, FilePart, GivenFile, SettingTexts, VisitBrought } from "./records.ts";

export type PackedVisit = Omit<VisitBrought, "files" | "examinations"> & {
  /** SHA-256 of day, settings and files. */
  readonly digest: string;
  readonly files: readonly {
    readonly part: FilePart;
    readonly sha256: string;
    readonly byteCount: number;
    readonly packed: Uint8Array;
  }[];
  readonly examinations: readonly (ExaminationRecord & { readonly packed: Uint8Array })[];
};

export async function packVisit(visit: VisitBrought): Promise<PackedVisit> {
  const files = visit.files.toSorted((one, other) => inOrder(one.sha256, other.sha256));
  return {
    ...visit,
    digest: digestOf(visit),
    files: await Promise.all(files.map(packFile)),
    examinations: await Promise.all(
      visit.examinations.map(async ({ examination, ...record }, index) => {
        if (record.ordinal !== index + 1) throw new Error("a visit's examinations are numbered 1, 2, … in order");
        return { ...record, packed: await packExamination(examination) };
      }),
    ),
  };
}

async function packFile({ part, sha256, bytes }: GivenFile) {
  if (sha256Of(bytes) !== sha256) throw new Error("a file is to be kept under another hash than its own");
  return { part, sha256, byteCount: bytes.length, packed: await packed(bytes) };
}

function digestOf({ date, settings, files }: VisitBrought): string {
  const hashes = files.map(({ part, sha256 }) => [part, sha256]).sort(([one], [other]) => inOrder(one, other));
  return sha256Of(JSON.stringify([date, sorted(settings), hashes]));
}

function sorted(settings: SettingTexts): readonly (readonly [string, string])[] {
  return Object.entries(settings).sort(([one], [other]) => inOrder(one, other));
}

function inOrder(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}
