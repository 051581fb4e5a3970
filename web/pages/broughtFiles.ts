/**
 * What was dropped or picked, told apart: readings, thickness, or neither.
 *
 * Files -> what is examined, what waits, what was left out. A thickness file is known by `thickness` among the columns of its header (the
 * first line that is neither blank nor a `#` setting). A lone thickness file joins the workshop's own readings that are already
 * here, never an example's: then it waits for readings. Lone readings are a new board, unless the last attempt was faulty: then the
 * other file is kept, since one of the two is being mended. One board at a time: of two files of a kind the first is taken.
 */
export type Brought = { readonly readings: File | null; readonly thickness: File | null };

export type Before = {
  /** What is on the sheet now. */
  readonly onSheet: Brought;
  readonly isExample: boolean;
  /** A thickness file that came before its readings. */
  readonly waiting: File | null;
  readonly isMending: boolean;
};

export type Sorted = {
  /** What is to be examined; null where readings are still to come. */
  readonly board: Brought | null;
  readonly waiting: File | null;
  readonly leftOut: readonly File[];
};

export async function sortBrought(files: readonly File[], before: Before): Promise<Sorted> {
  const readings: File[] = [];
  const thickness: File[] = [];
  for (const file of files) (isThicknessHeader(await headOf(file)) ? thickness : readings).push(file);
  const leftOut = [...readings.slice(1), ...thickness.slice(1)];
  const brought = { readings: readings[0] ?? null, thickness: thickness[0] ?? null };
  if (brought.readings === null) {
    const own = before.isExample ? null : before.onSheet.readings;
    return own === null
      ? { board: null, waiting: brought.thickness ?? before.waiting, leftOut }
      : { board: { readings: own, thickness: brought.thickness }, waiting: null, leftOut };
  }
  const kept = before.waiting ?? (before.isMending && !before.isExample ? before.onSheet.thickness : null);
  return { board: { readings: brought.readings, thickness: brought.thickness ?? kept }, waiting: null, leftOut };
}

/** Settings and header stand in the first lines: no more of a long scan is read. */
const headOf = (file: File): Promise<string> => file.slice(0, 65_536).text();

export function isThicknessHeader(text: string): boolean {
  const lines = text.replace(/^\uFEFF/, "").split(/\r\n|\n|\r/);
  const header = lines.find((line) => line.trim() !== "" && !line.trimStart().startsWith("#"));
  const columns = (header ?? "").toLowerCase().split(/[,;\t]/);
  return columns.some((column) => column.trim().replace(/"/g, "").startsWith("thickness"));
}
