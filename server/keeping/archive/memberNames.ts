/**
 * Where everything lies within an archive. Records -> paths of letters, digits, dashes and dots, safe on every file system.
 *
 * An instrument's folder bears its number where that is plain; signs become dashes ("12/3" -> "12-3"), and what is left bare, is taken
 * already or means something to a system ("con") gets its place in the list instead. The true number stands in instrument.json.
 */
import type { FilePart } from "../../records/records.ts";

/** Of an archive's form; one that is read back may be older, never newer. */
export const archiveForm = 1;

export const names = {
  readme: "README.txt",
  about: "archive.json",
  sums: "sha256sums.txt",
  instruments: "instruments.csv",
  visits: "visits.csv",
  instrument: "instrument.json",
  visit: "visit.json",
  player: "player.json",
} as const;

export const instrumentsFolder = "instruments/";

const mostLetters = 40;
/** Names that some systems keep for devices, whatever their ending. */
const ofDevices = /^(con|prn|aux|nul|com\d|lpt\d)$/i;

/** Hands out a folder for each instrument in turn; none twice, even where capitals don't count. */
export function instrumentFolders(): (number: string) => string {
  const taken = new Set<string>();
  let count = 0;
  return (number) => {
    count++;
    const plain = number
      .replace(/[^A-Za-z0-9]+/g, "-")
      .replace(/^-|-$/g, "")
      .slice(0, mostLetters);
    const isFree = plain !== "" && !ofDevices.test(plain) && !taken.has(plain.toLowerCase());
    let name = isFree ? plain : `instrument-${count}`;
    while (taken.has(name.toLowerCase())) name += "-x";
    taken.add(name.toLowerCase());
    return `${instrumentsFolder}${name}/`;
  };
}

export function visitFolder(instrumentFolder: string, { date, id }: { readonly date: string; readonly id: string }) {
  return `${instrumentFolder}visits/${date}-${id}/`;
}

export function givenFileName(part: FilePart): string {
  return `${part}.csv`;
}

export function examinationName(ordinal: number): string {
  return `examination-${ordinal}.json`;
}
