/**
 * Which unit a column of lengths is in, when its heading and the settings both may say.
 *
 * The heading rules where nobody else spoke: with the gauge at mm (the default) and no such setting in the file.
 * Where both speak they must agree; nothing is guessed.
 */
import type { SettingEntry } from "../board/settings.ts";
import type { FaultList } from "./faultList.ts";
import type { LengthColumn } from "./readingsFile.ts";
import { shownSafely } from "./shownSafely.ts";

/** mm per unit of the column. On a contradiction: tells it, and goes on with the settings' unit. */
export function columnUnitMm(
  column: LengthColumn | null,
  settingKey: "unit" | "place_unit",
  settingUnitMm: number,
  entries: readonly SettingEntry[],
  faults: FaultList,
): number {
  if (column === null || column.unitMm === null || column.unitMm === settingUnitMm) return settingUnitMm;
  const settingSpoke = settingUnitMm !== 1 || entries.some((entry) => entry.key === settingKey);
  if (!settingSpoke) return column.unitMm;
  faults.add(
    column.place,
    "unit-contradicts",
    `the heading ${shownSafely(column.heading)} while the setting ${settingKey} says ${unitInWords(settingUnitMm)}`,
    `Let both say the same: change the heading, or the setting ${settingKey}.`,
  );
  return settingUnitMm;
}

export function unitInWords(unitMm: number): string {
  if (unitMm === 1) return "mm";
  if (unitMm === 0.01) return "0.01mm";
  if (unitMm === 25.4) return "in";
  return unitMm === 0.0254 ? "thou" : `${unitMm} mm`;
}
