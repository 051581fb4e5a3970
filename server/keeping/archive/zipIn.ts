/**
 * A ZIP file from outside, opened with suspicion: nothing of it is ever written to a folder, and no more is unpacked than was asked for.
 *
 * In: the file's path and limits. Out: its members by path, or one sentence why this archive is refused as a whole: no ZIP,
 * protected by a password, links, the same name twice, names that lead out of it, too many members, more inside than such a
 * file can honestly hold. A member's size is what it says at most, or reading it rejects with Unreadable.
 */
import yauzl, { type ZipFile } from "yauzl";

export type ZipLimits = {
  readonly members: number;
  /** Of all members together, unpacked. */
  readonly totalBytes: number;
};

export const usualZipLimits: ZipLimits = { members: 3_000_000, totalBytes: 2 ** 40 };

/** Text packs ten to twenty times smaller; a hundred times and more is a trap. */
const mostTimesPacked = 200;
const smallBytes = 16 * 2 ** 20;

/** A member that can't be read, in words: what follows "…: ". */
export class Unreadable extends Error {}

export type OpenedZip = {
  paths(): Iterable<string>;
  has(path: string): boolean;
  /** Pieces of it; no more than `mostBytes`, nor than it says it holds. */
  pieces(path: string, mostBytes: number): AsyncGenerator<Uint8Array>;
  close(): void;
};

export type Opened =
  | { readonly outcome: "opened"; readonly zip: OpenedZip }
  | { readonly outcome: "refused"; readonly why: string };

/** What is kept of a member: what it takes to read it, and nothing more. */
type Place = Pick<
  yauzl.Entry,
  "relativeOffsetOfLocalHeader" | "compressedSize" | "uncompressedSize" | "compressionMethod" | "generalPurposeBitFlag"
>;

export async function openZip(path: string, limits: ZipLimits): Promise<Opened> {
  let file: ZipFile;
  try {
    file = await yauzl.openPromise(path, { autoClose: false, strictFileNames: true });
  } catch (error) {
    if (isOfSystem(error)) throw error;
    return { outcome: "refused", why: "This is no ZIP archive, or a part of it is missing." };
  }
  const listed = await placesIn(file, limits);
  if (typeof listed === "string") {
    file.close();
    return { outcome: "refused", why: listed };
  }
  return {
    outcome: "opened",
    zip: {
      paths: () => listed.keys(),
      has: (member) => listed.has(member),
      pieces: (member, mostBytes) => piecesOf(file, listed.get(member), mostBytes),
      close: () => file.close(),
    },
  };
}

/** Every member but folders, or why the archive is refused. */
async function placesIn(file: ZipFile, limits: ZipLimits): Promise<ReadonlyMap<string, Place> | string> {
  const places = new Map<string, Place>();
  const lowerCase = new Set<string>();
  let totalBytes = 0;
  if (file.entryCount > limits.members)
    return `It holds ${file.entryCount} files; at most ${limits.members} are taken.`;
  try {
    for await (const entry of file.eachEntry()) {
      const { fileName } = entry;
      if (fileName.endsWith("/")) continue;
      if (entry.isEncrypted()) return "It is protected by a password. Make one without.";
      if (!entry.canDecodeFileData())
        return "It is packed in a way that is not common. Pack it anew, as an ordinary ZIP.";
      if (isLink(entry)) return "It holds a link instead of a file. Pack the files themselves.";
      if (lowerCase.has(fileName.toLowerCase())) return "It holds two files of the same name.";
      lowerCase.add(fileName.toLowerCase());
      totalBytes += entry.uncompressedSize;
      places.set(fileName, placeOf(entry));
    }
  } catch (error) {
    if (isOfSystem(error)) throw error;
    const leadsOut = error instanceof Error && /relative path|absolute path|characters in fileName/.test(error.message);
    return leadsOut ? "It holds a file whose name leads out of the archive." : "Its list of files is damaged.";
  }
  if (totalBytes > limits.totalBytes) return "Unpacked it would be too large.";
  if (totalBytes > smallBytes && totalBytes > mostTimesPacked * file.fileSize) {
    return "It would grow more than two hundred times in unpacking, as no records do.";
  }
  return places;
}

function placeOf(entry: yauzl.Entry): Place {
  const { relativeOffsetOfLocalHeader, compressedSize, uncompressedSize } = entry;
  const { compressionMethod, generalPurposeBitFlag } = entry;
  return { relativeOffsetOfLocalHeader, compressedSize, uncompressedSize, compressionMethod, generalPurposeBitFlag };
}

/** Permissions as POSIX has them stand in the upper half. */
function isLink({ externalFileAttributes }: yauzl.Entry): boolean {
  return ((externalFileAttributes >>> 16) & 0o170000) === 0o120000;
}

async function* piecesOf(file: ZipFile, place: Place | undefined, mostBytes: number): AsyncGenerator<Uint8Array> {
  if (place === undefined) throw new Unreadable("it is missing in the archive");
  if (place.uncompressedSize > mostBytes) throw new Unreadable(`it is larger than ${mostBytes} bytes`);
  try {
    const stream = await file.openReadStreamPromise(Object.assign(new yauzl.Entry(), place));
    for await (const piece of stream) yield piece;
  } catch (error) {
    if (isOfSystem(error)) throw error;
    throw new Unreadable("it is damaged in the archive");
  }
}

/** The disk, not the archive. Damaged packing has codes of zlib's own (Z_…). */
function isOfSystem(error: unknown): boolean {
  return error instanceof Error && "syscall" in error;
}
