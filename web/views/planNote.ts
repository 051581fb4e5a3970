/**
 * The line under the plan: how much wider than long it is drawn, and how to read the map.
 */
import type { Examination } from "../../server/core/examination.ts";
import { depthText, factorText } from "../chart/format.ts";
import type { MapKind } from "../chart/palette.ts";
import type { PlanScales } from "../chart/scales.ts";
import type { Sheet } from "../chart/sheet.ts";
import { noiseFloorMm } from "../chart/soundings.ts";

export function planNoteText(examination: Examination, sheet: Sheet, scales: PlanScales): string {
  const widths = scales.widthFactor === 1 ? "Plan to scale" : `Widths ${factorText(scales.widthFactor)}`;
  if (sheet.field === null) return `${widths}. These readings can’t carry this map.`;
  const what: Readonly<Record<MapKind, string>> = {
    wear: `soundings in hundredths of a mm; a dot is a reading within its noise (${depthText(noiseFloorMm(examination))} mm); hatched is unread`,
    cut: "soundings: hundredths of a mm to take off; ▼ deepest cut, △ target touches the surface; hatched inside the dashed line: scraper and paper, no plane",
    humps: "soundings: hundredths of a mm above the right shape; humps are for the plane alone",
  };
  return `${widths}; ${what[sheet.kind]}.`;
}
