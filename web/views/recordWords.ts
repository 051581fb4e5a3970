/**
 * Names and choices of the records in a luthier's words: instruments, days, work, decisions.
 *
 * What a workshop wrote itself stands in <bdi>, so that letters that run from right to left don't turn the words round it.
 */
import type { Decision } from "../../server/core/examination.ts";
import type { Findings, WorkDone } from "../../server/core/history/history.ts";
import type { DecisionTaken } from "../../server/records/records.ts";
import { depthWords, measuredText } from "../chart/format.ts";
import { element } from "./element.ts";
import { quickWords, verdictWords } from "./verdictWords.ts";

export const bdi = (text: string, className: string | null = null): HTMLElement =>
  element("bdi", { class: className }, text);

/** "12 March 2025" from "2025-03-12" or an instant; the text itself where it is neither. */
export function dayText(date: string): string {
  const day = /^(\d{4})-(\d{2})-(\d{2})/.exec(date);
  if (day === null) return date;
  return new Date(Date.UTC(Number(day[1]), Number(day[2]) - 1, Number(day[3]))).toLocaleDateString("en-GB", {
    day: "numeric",
    month: "long",
    year: "numeric",
    timeZone: "UTC",
  });
}

/** The same in fewer letters and on one line, for tables: "12 Mar 2025". */
export const shortDayText = (date: string): string =>
  dayText(date)
    .replace(/([A-Z][a-z]{2})[a-z]*/, "$1")
    .replaceAll(" ", "\u00a0");

/** "Cello 4/4". */
export const kindText = ({ kind, size }: { readonly kind: string; readonly size: string }): string =>
  `${kind.charAt(0).toUpperCase()}${kind.slice(1)} ${size}`;

export const workWords: Readonly<Record<WorkDone, string>> = {
  none: "nothing",
  dressed: "dressed",
  shaped: "shaped",
  "new board": "new board",
  other: "other work",
};

export const takenWords: Readonly<Record<DecisionTaken, string>> = {
  leave: "leave it",
  wait: "wait and measure again",
  dress: "dress it",
  shape: "shape it",
  replace: "new board",
  restorer: "to a restorer",
};

export const decisionText = (decision: Decision): string => verdictWords[decision];

/** What an examination came to, in two or three words. */
export const foundText = ({ decision, quickLook }: Findings): string =>
  quickLook === null ? verdictWords[decision] : quickWords[quickLook];

/** The deepest wear with its uncertainty; "none" with the depth that would not have shown. */
export function deepestText({ deepest, unseenMm }: Findings): string {
  if (deepest !== null) return depthWords(deepest.depthMm.value, deepest.depthMm.u, deepest.atLeast);
  return unseenMm === null ? "not looked for" : "none";
}

export const edgeText = ({ edge }: Findings): string => (edge === null ? "–" : measuredText(edge.value, edge.u));
