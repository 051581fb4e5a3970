/**
 * What the plane left on the board, and what these readings can't tell of its shape: short notes under the shape's tables.
 *
 * Examination -> HTML; nothing where there is nothing to say. mm. Long waves and humps of the unworn surface are workmanship: none of
 * it is counted as wear.
 */
import type { Examination, HumpUnderString } from "../../server/core/examination.ts";
import { depthText, measuredText, placeText } from "../chart/format.ts";
import { ownHumps } from "../chart/ownHumps.ts";
import { element } from "./element.ts";

export function workmanshipNotes({ surface, verdict }: Examination): readonly HTMLElement[] {
  const note = (className: string, text: string) => element("p", { class: className }, text);
  const isQuickLook = verdict.quickLook !== null;
  return [
    ...wavesWords(surface.formMm).map((text) => note("long-waves", text)),
    ...humpsWords(ownHumps(surface)).map((text) => note("humps", text)),
    // A quick look tells it among its reasons.
    ...(isQuickLook || surface.assumed.length === 0
      ? []
      : [note("assumed", `These readings can’t tell it, so it is taken as usual: ${surface.assumed.join("; ")}.`)]),
  ];
}

/** Waves too low to be written in hundredths are not worth a word. */
function wavesWords(formMm: number | null): readonly string[] {
  if (formMm === null || Number(depthText(formMm)) === 0) return [];
  return [`Long waves of ±\u00a0${depthText(formMm)} mm: workmanship, no wear.`];
}

/** The highest first: it buzzes first. */
function humpsWords(humps: readonly HumpUnderString[]): readonly string[] {
  if (humps.length === 0) return [];
  const places = [...humps]
    .sort((a, b) => b.heightMm.value - a.heightMm.value)
    .map(
      ({ string, xMm, heightMm }) =>
        `${string} string, ${placeText(xMm)} mm from the nut, ${measuredText(heightMm.value, heightMm.u)} mm high`,
    );
  return [`${places.length === 1 ? "A hump" : "Humps"} behind a dip, where a string may buzz: ${places.join("; ")}.`];
}
