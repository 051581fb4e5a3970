/**
 * An archive of records, open for reading: its instruments' folders, and members whose check sums were found right.
 *
 * In: an opened ZIP (zipIn.ts). Out: the archive, or one sentence why it is none. It may have been unpacked and packed again, with a folder
 * around it, or players' notes taken out; what is no part of the records (a system's own files) is left aside.
 */
import { createHash } from "node:crypto";
import { archiveForm, instrumentsFolder, names } from "./memberNames.ts";
import { archiveAbout, parsedJson } from "./recordsFromJson.ts";
import { type OpenedZip, Unreadable } from "./zipIn.ts";

export type ArchiveIn = {
  /** "instruments/C-07/", in the order of the archive. */
  readonly instrumentFolders: readonly string[];
  has(path: string): boolean;
  /** Whole and as it was exported; rejects with Unreadable. */
  bytes(path: string, mostBytes: number): Promise<Uint8Array>;
};

export type ArchiveOpened =
  | { readonly outcome: "opened"; readonly archive: ArchiveIn }
  | { readonly outcome: "refused"; readonly why: string };

const mostAboutBytes = 64 * 1024;
const mostSumsBytes = 512 * 2 ** 20;
const longestLine = 1000;

export async function openArchive(zip: OpenedZip): Promise<ArchiveOpened> {
  const root = rootOf(zip.paths());
  if (root === null) return refused(`It holds no ${names.about}: these are no records exported from here.`);
  try {
    const sums = await readSums(zip, `${root}${names.sums}`);
    const bytes = (path: string, mostBytes: number) => checkedBytes(zip, root, sums, path, mostBytes);
    const about = parsedJson(await bytes(names.about, mostAboutBytes), archiveAbout);
    if (about.outcome === "faulty") return refused(`${names.about}: ${about.why}.`);
    if (about.parsed.form > archiveForm) {
      return refused(
        "It was exported by a newer version of Boardtrue, in another form. Use that version or a newer one.",
      );
    }
    const instrumentFolders = foldersOf(zip.paths(), root);
    return {
      outcome: "opened",
      archive: { instrumentFolders, has: (path) => zip.has(`${root}${path}`), bytes },
    };
  } catch (error) {
    if (error instanceof Unreadable) return refused(`${error.message}.`);
    throw error;
  }
}

/** The folder around everything, "" where there is none; null where no archive of records is in it. */
function rootOf(paths: Iterable<string>): string | null {
  let root: string | null = null;
  for (const path of paths) {
    const match = /^([^/]*\/)?archive\.json$/.exec(path);
    if (match !== null && (root === null || (match[1] ?? "").length < root.length)) root = match[1] ?? "";
  }
  return root;
}

function foldersOf(paths: Iterable<string>, root: string): readonly string[] {
  const folders = new Set<string>();
  for (const path of paths) {
    if (!path.startsWith(`${root}${instrumentsFolder}`)) continue;
    const [folder, rest] = path.slice(root.length + instrumentsFolder.length).split("/", 2);
    if (rest !== undefined) folders.add(`${instrumentsFolder}${folder}/`);
  }
  return [...folders];
}

/** Path -> SHA-256 (hex), from lines as `sha256sum` writes them. */
async function readSums(zip: OpenedZip, path: string): Promise<ReadonlyMap<string, string>> {
  const sums = new Map<string, string>();
  const decoder = new TextDecoder();
  let begun = "";
  const take = (line: string) => {
    const match = /^([0-9a-f]{64}) [ *](.+?)\r?$/.exec(line);
    if (match === null) throw new Unreadable(`${names.sums}: line ${sums.size + 1} is no check sum`);
    sums.set(match[2], match[1]);
  };
  try {
    for await (const piece of zip.pieces(path, mostSumsBytes)) {
      const lines = (begun + decoder.decode(piece, { stream: true })).split("\n");
      begun = lines.pop() ?? "";
      if (begun.length > longestLine) throw new Unreadable(`line ${sums.size + 1} is no check sum`);
      lines.forEach(take);
    }
  } catch (error) {
    if (error instanceof Unreadable && !error.message.startsWith(names.sums)) {
      throw new Unreadable(`${names.sums}: ${error.message}`);
    }
    throw error;
  }
  if (begun.trim() !== "") take(begun);
  return sums;
}

async function checkedBytes(
  zip: OpenedZip,
  root: string,
  sums: ReadonlyMap<string, string>,
  path: string,
  mostBytes: number,
): Promise<Uint8Array> {
  const name = path.split("/").at(-1);
  const sum = sums.get(path);
  if (!zip.has(`${root}${path}`)) throw new Unreadable(`${name}: it is missing in the archive`);
  if (sum === undefined) throw new Unreadable(`${name}: it has no check sum in ${names.sums}`);
  const pieces: Uint8Array[] = [];
  const hash = createHash("sha256");
  try {
    for await (const piece of zip.pieces(`${root}${path}`, mostBytes)) {
      hash.update(piece);
      pieces.push(piece);
    }
  } catch (error) {
    throw error instanceof Unreadable ? new Unreadable(`${name}: ${error.message}`) : error;
  }
  if (hash.digest("hex") !== sum) throw new Unreadable(`${name}: it is not as it was exported (its check sum differs)`);
  return Buffer.concat(pieces);
}

function refused(why: string): ArchiveOpened {
  return { outcome: "refused", why };
}
