/**
 * The line under the plan: how much wider than long it is drawn, and how to read the map.
 *
 * On the planing map it also says why the deepest sounding and the headline differ, and what the plan spares where that is not the deepest cut.
 */
import type { Examination, Planing } from "../../server/core/examination.ts";
import { deepestCutOf } from "../chart/deepestCut.ts";
import { depthText, factorText } from "../chart/format.ts";
import type { MapKind } from "../chart/palette.ts";
import type { PlanScales } from "../chart/scales.ts";
import type { Sheet } from "../chart/sheet.ts";
import { noiseFloorMm } from "../chart/soundings.ts";

export function planNoteText(examination: Examination, sheet: Sheet, scales: PlanScales): string {
  const widths = scales.widthFactor === 1 ? "Drawn to scale" : `Widths ${factorText(scales.widthFactor)}`;
  const next = sheet.kind === "wear" && examination.verdict.nextReading !== null ? "[ ] the place to measure next" : "";
  if (sheet.field === null) {
    const looked =
      examination.verdict.quickLook === null ? "" : "numbers are the hollow along a string, mm, where it is deepest";
    return [`${widths}. These readings can’t carry this map`, looked, next]
      .filter((part) => part !== "")
      .join("; ")
      .concat(".");
  }
  const crowded = "■ a reading whose number had no room";
  const what: Readonly<Record<MapKind, string>> = {
    wear: `numbers are hundredths of a mm lost; ${crowded}; · a reading within its noise (${depthText(noiseFloorMm(examination))} mm): nothing found; hatched is unread`,
    cut: `numbers are hundredths of a mm to take off; ${crowded}; △ the target touches the surface; hatched inside the dashed line: scraper and paper, no plane`,
    humps: `numbers are hundredths of a mm above the right shape: humps are for the plane alone; ${crowded}; · within its noise`,
  };
  const { planing } = examination;
  const more = sheet.kind === "cut" && planing !== null ? [cutAsRead(examination, planing), spared(planing)] : [];
  const nextToo = next === "" ? "" : `; ${next}`;
  return [`${widths}; ${what[sheet.kind]}${nextToo}.`, ...more].filter((part) => part !== "").join(" ");
}

function cutAsRead(examination: Examination, { planeOffMm }: Planing): string {
  const deepest = deepestCutOf(examination);
  if (deepest === null) return "";
  const [asRead, headline] = [depthText(deepest.cutMm), depthText(planeOffMm.value)];
  if (Number(asRead) > Number(headline))
    return `The map shows the cut as read, ${asRead} at the deepest; the headline’s ${headline} allows for noise, which makes the deepest of many readings look a little too deep.`;
  if (Number(asRead) < Number(headline))
    return `The headline’s ${headline} counts the outline too, where nobody can read.`;
  return "";
}

function spared({ spares, planeOffMm }: Planing): string {
  if (spares === "deepest cut") return "";
  return `This plan cuts deeper elsewhere to keep the thinnest edge; the least possible deepest cut, as read, would be ${depthText(planeOffMm.ofReadings)}.`;
}
