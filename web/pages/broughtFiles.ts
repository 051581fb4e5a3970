/**
 * What was dropped or picked, told apart: readings, thickness, or neither.
 *
 * Files -> a pair. A thickness file is known by `thickness` among the columns of its header (the first line that is neither blank nor a
 * `#` setting). A lone thickness file joins the readings that are already here; lone readings are a new board, unless the last
 * attempt was faulty: then the other file is kept, since one of the two is being mended.
 */
export type Brought = { readonly readings: File | null; readonly thickness: File | null };

export async function sortBrought(files: readonly File[], before: Brought, mending: boolean): Promise<Brought> {
  let readings: File | null = null;
  let thickness: File | null = null;
  for (const file of files) {
    if (isThicknessHeader(await file.slice(0, 65536).text())) thickness ??= file;
    else readings ??= file;
  }
  if (readings === null) return { readings: before.readings, thickness };
  return { readings, thickness: thickness ?? (mending ? before.thickness : null) };
}

export function isThicknessHeader(text: string): boolean {
  const lines = text.replace(/^\uFEFF/, "").split(/\r\n|\n|\r/);
  const header = lines.find((line) => line.trim() !== "" && !line.trimStart().startsWith("#"));
  const columns = (header ?? "").toLowerCase().split(/[,;\t]/);
  return columns.some((column) => column.trim().replace(/"/g, "").startsWith("thickness"));
}
