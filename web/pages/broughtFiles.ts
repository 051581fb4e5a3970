/**
 * What was dropped or picked, told apart: readings, thickness, the rail's profile, or none of these.
 *
 * Files -> what is examined, what waits, what was left out. A file is known by the columns of its header (the first line that is neither
 * blank nor a `#` setting): `thickness` or `error` among them; anything else is taken for readings. A thickness file or a profile that
 * comes without readings joins the workshop's own readings that are already here, never an example's: then it waits for readings.
 * Lone readings are a new board, unless the last attempt was faulty: then the other files are kept, since one of them is being mended.
 * The rail goes on from board to board, as the gauge does. One board at a time: of two files of a kind the first is taken.
 */
export type Brought = { readonly readings: File | null; readonly thickness: File | null; readonly rail: File | null };

/** Files that came before their readings. */
export type Waiting = { readonly thickness: File | null; readonly rail: File | null };

export const nothingBrought: Brought = { readings: null, thickness: null, rail: null };
export const nothingWaits: Waiting = { thickness: null, rail: null };

export type Before = {
  /** What is on the sheet now. */
  readonly onSheet: Brought;
  readonly isExample: boolean;
  readonly waiting: Waiting;
  readonly isMending: boolean;
};

export type Sorted = {
  /** What is to be examined; null where readings are still to come. */
  readonly board: Brought | null;
  readonly waiting: Waiting;
  readonly leftOut: readonly File[];
};

export type FileKind = keyof Brought;

export async function sortBrought(files: readonly File[], before: Before): Promise<Sorted> {
  const { first, leftOut } = await firstOfEachKind(files);
  const own = before.isExample ? nothingBrought : before.onSheet;
  const { waiting } = before;
  if (first.readings === null) {
    const thickness = first.thickness ?? waiting.thickness;
    const rail = first.rail ?? waiting.rail;
    if (own.readings === null) return { board: null, waiting: { thickness, rail }, leftOut };
    const board = { readings: own.readings, thickness: thickness ?? own.thickness, rail: rail ?? own.rail };
    return { board, waiting: nothingWaits, leftOut };
  }
  const thickness = first.thickness ?? waiting.thickness ?? (before.isMending ? own.thickness : null);
  const rail = first.rail ?? waiting.rail ?? own.rail;
  return { board: { readings: first.readings, thickness, rail }, waiting: nothingWaits, leftOut };
}

async function firstOfEachKind(
  files: readonly File[],
): Promise<{ readonly first: Brought; readonly leftOut: readonly File[] }> {
  const found = new Map<FileKind, File>();
  const leftOut: File[] = [];
  for (const file of files) {
    const kind = kindByHeader(await headOf(file));
    if (found.has(kind)) leftOut.push(file);
    else found.set(kind, file);
  }
  const first = (kind: FileKind): File | null => found.get(kind) ?? null;
  return { first: { readings: first("readings"), thickness: first("thickness"), rail: first("rail") }, leftOut };
}

/** Settings and header stand in the first lines: no more of a long scan is read. */
const headOf = (file: File): Promise<string> => file.slice(0, 65_536).text();

export function kindByHeader(text: string): FileKind {
  const lines = text.replace(/^\uFEFF/, "").split(/\r\n|\n|\r/);
  const header = lines.find((line) => line.trim() !== "" && !line.trimStart().startsWith("#"));
  const columns = (header ?? "").toLowerCase().split(/[,;\t]/);
  const hasColumn = (name: string) => columns.some((column) => column.trim().replace(/"/g, "").startsWith(name));
  if (hasColumn("thickness")) return "thickness";
  return hasColumn("error") ? "rail" : "readings";
}
