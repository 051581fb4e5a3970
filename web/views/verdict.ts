/**
 * The verdict as the headline: two or three words, a sentence with its numbers, then the reasons and what would turn it.
 *
 * Examination -> header content. Every number comes from the examination; this only chooses the order and the words round it.
 */
import type {
  Change,
  Decision,
  Examination,
  HollowUnderString,
  Planing,
  Reason,
  Verdict,
} from "../../server/core/examination.ts";
import { depthText, depthWords, measuredRadiusText, measuredText, radiusText, scatterText } from "../chart/format.ts";
import { wearIsAtLeast } from "../chart/wearIsAtLeast.ts";
import { element, fill } from "./element.ts";
import { quickWords, verdictWords } from "./verdictWords.ts";

export function drawVerdict(target: HTMLElement, examination: Examination, board: HTMLElement): void {
  const { verdict } = examination;
  fill(
    target,
    element(
      "div",
      { class: "headline" },
      element("h1", {}, verdict.quickLook === null ? verdictWords[verdict.decision] : quickWords[verdict.quickLook]),
      element("p", { class: "lead" }, ...leadSentences(examination)),
      board,
    ),
    element(
      "div",
      { class: "grounds" },
      element(
        "div",
        {},
        element(
          "ul",
          { class: "reasons", "aria-label": "Reasons" },
          ...verdict.reasons.map((reason) => reasonItem(reason, examination)),
        ),
        ...nextReading(verdict),
      ),
      verdict.wouldChange.length === 0 ? null : element("div", { class: "changes" }, ...changes(verdict)),
    ),
  );
}

/** Decisions after which wood may go: their numbers are the cut and what it leaves, unless all is sound as far as it was read. */
const planed: readonly Decision[] = ["dress", "shape", "borderline", "replace", "undecided"];

/** The numbers that carry the verdict: the cut and what is left where wood would go, else the shape or wear and what is there. */
function leadSentences(examination: Examination): (Node | string)[] {
  const { planing, thickness, verdict } = examination;
  const isSoundWhereRead = verdict.reasons.some((reason) => reason.code === "sound-where-read");
  const isPlaned = planing !== null && planed.includes(verdict.decision) && !isSoundWhereRead;
  if (verdict.quickLook !== null && thickness === null) return [quickSentence];
  const first = isPlaned
    ? cutSentence(planing)
    : verdict.quickLook !== null
      ? [`${quickSentence} `]
      : verdict.decision === "cause"
        ? humpSentence(examination)
        : wearSentence(examination);
  if (thickness === null) return [...first, "Thickness was not measured."];
  const { value, u } = isPlaned ? thickness.edgeAfterMm : thickness.before;
  return [
    ...first,
    isPlaned ? "The thinnest edge keeps " : "The thinnest edge has ",
    strong(measuredText(value, u)),
    ` mm; the limit is ${depthText(thickness.limitMm)}.`,
  ];
}

const strong = (text: string): HTMLElement => element("strong", {}, text);

const quickSentence = "A quick look: what was not read is not judged.";

function cutSentence({ planeOffMm, atLeast }: Planing): (Node | string)[] {
  return ["Deepest cut ", strong(depthWords(planeOffMm.value, planeOffMm.u, atLeast)), " mm. "];
}

function wearSentence(examination: Examination): (Node | string)[] {
  const { deepest } = examination;
  if (deepest === null) return ["No wear beyond the noise of the readings. "];
  return ["Deepest wear ", strong(depthWords(deepest.depthMm, deepest.u, wearIsAtLeast(examination))), " mm. "];
}

/** The highest hump along a string; the wear where no string is humped (a loose board, say). */
function humpSentence(examination: Examination): (Node | string)[] {
  const humped = examination.surface.hollows.filter((hollow) => hollow.state === "humped");
  const highest = humped.reduce<HollowUnderString | null>(
    (most, hollow) => (most === null || hollow.hollowMm.value < most.hollowMm.value ? hollow : most),
    null,
  );
  if (highest === null) return wearSentence(examination);
  const { value, u } = highest.hollowMm;
  return ["Humped by ", strong(measuredText(-value, u)), ` mm along the ${highest.string} string. `];
}

/** What was found, then the number held against its limit, and where the limit comes from. */
function reasonItem(reason: Reason, examination: Examination): HTMLLIElement {
  const value = reason.valueMm === null ? null : valueWords(reason, reason.valueMm, examination);
  const isRadius = reason.code === "camber" || reason.code === "template";
  const limitName = reason.code === "noise" ? "a dressing is due from" : "limit";
  const limit =
    reason.limitMm === null
      ? null
      : `${limitName} ${isRadius ? radiusText(reason.limitMm) : depthText(reason.limitMm)} mm`;
  const origin = [limit, reason.origin].filter((part) => part !== null).join(", ");
  return element(
    "li",
    {},
    `${sentence(reason.says)} `,
    value === null ? null : element("strong", {}, value),
    origin === "" ? null : element("span", { class: "origin" }, value === null ? origin : `; ${origin}`),
  );
}

/** A reason's number in the same digits as the same thing has elsewhere on the sheet: radii, scatter, depths. */
function valueWords({ code, u }: Reason, valueMm: number, { wornPlaces }: Examination): string {
  if (code === "noise") return `scatter ${scatterText(valueMm)}`;
  if (code === "camber") return `${u === null ? radiusText(valueMm) : measuredRadiusText(valueMm, u)} mm`;
  const atLeast = wornPlaces.some((place) => place.atLeast && place.depthMm === valueMm);
  return `${u === null ? depthText(valueMm) : depthWords(valueMm, u, atLeast)} mm`;
}

function changes({ wouldChange }: Verdict): readonly HTMLElement[] {
  return [element("h2", {}, "What would change it"), element("ul", {}, ...wouldChange.map(changeItem))];
}

/** The one place worth going back to the bench for. */
function nextReading({ nextReading: next }: Verdict): readonly HTMLElement[] {
  return next === null ? [] : [element("h2", {}, "Next reading"), element("p", { class: "next" }, next.says)];
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
