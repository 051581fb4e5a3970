/**
 * What a readings file says in its own `#` lines: key -> value as written, and the line it stands on.
 *
 * Text of the file -> map. Only lines before the header count; a key's words may stand apart or be joined by hyphens. The server reads the
 * file again and judges it: this is only for showing where a setting comes from.
 */
export type FileSetting = { readonly value: string; readonly line: number };
export type FileSettings = ReadonlyMap<string, FileSetting>;

const settingShape = /^#+\s*(\p{L}[\p{L}\d]*(?:[ _-]+[\p{L}\d]+){0,2})\s*:(?!\/\/)\s*(.*)$/u;

export function fileSettingsIn(text: string): FileSettings {
  const settings = new Map<string, FileSetting>();
  const lines = text.replace(/^\uFEFF/, "").split(/\r\n|\n|\r/);
  for (const [i, written] of lines.entries()) {
    const line = written
      .trim()
      .replace(/^"/, "")
      .replace(/[",;\t\s]+$/, "");
    if (line === "") continue;
    if (!line.startsWith("#")) break;
    const found = settingShape.exec(line);
    if (found === null || found[2]!.trim() === "") continue;
    settings.set(found[1]!.toLowerCase().replace(/[ _-]+/g, "_"), { value: found[2]!.trim(), line: i + 1 });
  }
  return settings;
}

/** Settings stand in the first lines: no more of a long scan is read. */
export const fileSettingsOf = async (file: File): Promise<FileSettings> =>
  fileSettingsIn(await file.slice(0, 65_536).text());
