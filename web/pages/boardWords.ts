/**
 * Which board this is, in words: beside the headline, and on the foot of the printed sheet.
 *
 * Examination, files and what was said -> text. The gauge's settings are not part of the examination: they are read from the file and the page.
 */
import type { Examination } from "../../server/core/examination.ts";
import type { Example } from "../api/bench.ts";
import type { Brought } from "./broughtFiles.ts";
import type { FileSettings } from "./fileSettings.ts";
import { settingEntries } from "./settingEntries.ts";
import { changedByYou, inForce, type Said } from "./settingsSaid.ts";

/** Two lines: the instrument, and what was read, with the files where they are the workshop's own. */
export function boardLines(examination: Examination, brought: Brought, opened: Example | null): readonly string[] {
  const { instrument, readings } = examination;
  const kind = `${instrument.kind.charAt(0).toUpperCase()}${instrument.kind.slice(1)} ${instrument.size}`;
  return [
    opened === null ? kind : `${kind}, loan store no. ${opened.number}`,
    `${readings.count} readings${opened === null ? `: ${fileNames(brought)}` : ""}`,
  ];
}

/** What a printed sheet must say of where it comes from. */
export function footWords(
  examination: Examination,
  brought: Brought,
  file: FileSettings,
  said: Said,
): readonly string[] {
  const now = (key: string, name: string): string => {
    const entry = settingEntries.find((one) => one.key === key)!;
    return `${name} ${inForce(entry, examination, file, said).value}`;
  };
  return [
    `from ${fileNames(brought)}`,
    // Gaps are taken with leaves, not with a ball.
    ...(examination.points.length === 0 ? [] : [now("tip_radius", "tip radius")]),
    now("tension", "strings at pitch while measuring:"),
    now("build", "build"),
    changedByYou(said) || "no setting changed by hand",
    `Boardtrue ${examination.version}`,
  ];
}

const fileNames = ({ readings, thickness, rail }: Brought): string =>
  [readings?.name, thickness?.name, rail?.name].filter((name) => name !== undefined).join(" + ");
