/**
 * The verdict as the headline: two or three words, a sentence with its numbers, then the reasons and what would turn it.
 *
 * Examination -> header content. Every number comes from the examination; this only chooses the order and the words round it.
 */
import type { Change, Decision, Examination, Reason } from "../../server/core/examination.ts";
import { depthText, measuredText } from "../chart/format.ts";
import { element, fill } from "./element.ts";

export const verdictWords: Readonly<Record<Decision, string>> = {
  leave: "Leave it",
  dress: "Dress it",
  shape: "Shape it",
  borderline: "Too close to call",
  replace: "New board",
  undecided: "Can’t say yet",
  restorer: "To a restorer first",
  cause: "Find the cause first",
};

export function drawVerdict(target: HTMLElement, examination: Examination, board: readonly string[]): void {
  const { verdict } = examination;
  fill(
    target,
    element(
      "div",
      { class: "headline" },
      element("h1", {}, verdictWords[verdict.decision]),
      element("p", { class: "lead" }, ...leadSentences(examination)),
      element("p", { class: "which-board" }, ...board.map((line) => element("span", {}, line))),
    ),
    element(
      "div",
      { class: "grounds" },
      element("ul", { class: "reasons", "aria-label": "Reasons" }, ...verdict.reasons.map(reasonItem)),
      verdict.wouldChange.length === 0
        ? null
        : element(
            "div",
            { class: "changes" },
            element("h2", {}, "What would change it"),
            element("ul", {}, ...verdict.wouldChange.map(changeItem)),
          ),
    ),
  );
}

/** The numbers that carry the verdict: the cut and what is left, or the deepest wear where nothing is planned. */
function leadSentences(examination: Examination): (Node | string)[] {
  const { planing, thickness, deepest, verdict } = examination;
  const parts: (Node | string)[] = [];
  const strong = (text: string) => element("strong", {}, text);
  if (planing !== null && verdict.decision !== "leave") {
    const { value, u } = planing.planeOffMm;
    parts.push("Deepest cut ", planing.atLeast ? "at least " : "", strong(measuredText(value, u)), " mm. ");
  } else if (deepest !== null) {
    parts.push(
      "Deepest wear ",
      deepest.atLeast ? "at least " : "",
      strong(measuredText(deepest.depthMm, deepest.u)),
      " mm. ",
    );
  }
  if (thickness !== null) {
    const { value, u } = thickness.edgeAfterMm;
    const keeps =
      planing !== null && verdict.decision !== "leave" ? "The thinnest edge keeps " : "The thinnest edge has ";
    parts.push(keeps, strong(measuredText(value, u)), ` mm; the limit is ${depthText(thickness.limitMm)}.`);
  } else {
    parts.push("Thickness was not measured.");
  }
  return parts;
}

/** What was found, then the number held against its limit, and where the limit comes from. */
function reasonItem(reason: Reason): HTMLLIElement {
  const value =
    reason.valueMm === null
      ? null
      : `${reason.u === null ? depthText(reason.valueMm) : measuredText(reason.valueMm, reason.u)} mm`;
  const limit = reason.limitMm === null ? null : `limit ${depthText(reason.limitMm)} mm`;
  const origin = [limit, reason.origin].filter((part) => part !== null).join(", ");
  return element(
    "li",
    {},
    `${sentence(reason.says)} `,
    value === null ? null : element("strong", {}, value),
    origin === "" ? null : element("span", { class: "origin" }, value === null ? origin : `; ${origin}`),
  );
}

/** A setting or a measurement that would turn the verdict; where a default would, the words say its origin. */
const changeItem = (change: Change): HTMLLIElement =>
  element(
    "li",
    {},
    `${change.says.replace(/[.:]$/, "")}: `,
    element("em", {}, verdictWords[change.decision].toLowerCase()),
    ".",
  );

const sentence = (text: string): string => (/[.!?]$/.test(text) ? text : `${text}.`);
