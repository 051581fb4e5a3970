/**
 * Every setting in plain text: its key, what it means, what it takes, an example. Table of settings -> text, 80 columns.
 */
import type { SettingDescription } from "../core/board/settings.ts";

const indent = "    ";
const columns = 80;

export function settingsHelp(table: readonly SettingDescription[]): string {
  const entries = table.map((setting) =>
    [setting.key, ...wrapped(`${setting.meaning}${takes(setting)}; e.g. ${setting.example}`)].join("\n"),
  );
  return `Write them above the readings as "# key: value", or after --set as key=value.\n\n${entries.join("\n")}\n`;
}

function takes({ choices, range, unit }: SettingDescription): string {
  if (choices) return `: ${choices.join(", ")}`;
  if (range) return ` (${range[0]} to ${range[1]}${unit ? ` ${unit}` : ""})`;
  return "";
}

function wrapped(text: string): readonly string[] {
  const lines: string[] = [];
  let line = indent;
  for (const word of text.split(" ")) {
    if (line.length + word.length > columns && line !== indent) {
      lines.push(line.trimEnd());
      line = indent;
    }
    line += `${word} `;
  }
  return [...lines, line.trimEnd()];
}
