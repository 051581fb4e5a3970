/** Settings from outside the file (command line, form), as the core takes them: they name no line, and win over the file. */
import type { SettingEntry } from "./core/board/settings.ts";

export function settingsFromOutside(pairs: Iterable<readonly [key: string, text: string]>): readonly SettingEntry[] {
  return [...pairs].map(([key, text]) => ({ key, value: text, where: "settings" as const, line: null }));
}
