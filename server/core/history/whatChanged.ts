/**
 * What a newer version of the program says otherwise of the same readings.
 *
 * Two examinations of one visit -> every answer that differs, in words with units; empty where nothing changed beyond rounding. Told
 * are answers that read differently as a bench gauge shows them (0.01 mm, radii 0.1 mm), unless they differ by less than half a
 * thousandth of a mm: kept examinations are rounded, and a last digit may tip over.
 */
import type { Examination, HollowUnderString } from "../examination.ts";
import { plusMinus } from "../thickness/sayings.ts";
import type { Quantity } from "../units.ts";
import { decisionInWords, quantityInWords } from "./words.ts";

export type Change = {
  /** "the deepest place", "the hollow under the C string". */
  readonly what: string;
  readonly before: string;
  readonly after: string;
  /** Whether a measure moved by more than both its uncertainties together; null where it is no measure, or came or went. */
  readonly isBeyondU: boolean | null;
};

/** Less than this is rounding, mm. */
const roundingMm = 0.0005;

export function whatChanged(before: Examination, after: Examination): readonly Change[] {
  const told = (what: string, of: (examination: Examination) => string): Change | null =>
    wordsChanged(what, of(before), of(after));
  const measured = (
    what: string,
    of: (examination: Examination) => Quantity | null,
    words: (quantity: Quantity) => string = quantityInWords,
  ): Change | null => measureChanged(what, of(before), of(after), words);
  const changes = [
    told("the decision", ({ verdict }) => verdict.quickLook ?? decisionInWords[verdict.decision]),
    measured("the deepest place", ({ deepest }) => deepest && { value: deepest.depthMm, u: deepest.u }),
    told("where the deepest place is", whereDeepest),
    told("whether it may be deeper", ({ deepest }) => (deepest?.atLeast ? "at least so deep" : "as deep as it reads")),
    told("worn places", ({ wornPlaces }) => String(wornPlaces.filter(({ kind }) => kind !== "hump").length)),
    told("humps", ({ wornPlaces }) => String(wornPlaces.filter(({ kind }) => kind === "hump").length)),
    ...stringsOf(before, after).map((string) =>
      measured(`the hollow under the ${string} string`, (one) => hollowUnder(one, string)?.hollowMm ?? null),
    ),
    measured("the radius at the nut", ({ surface }) => surface.camberRadiusMm.nut, radiusInWords),
    measured("the radius half way", ({ surface }) => surface.camberRadiusMm.middle, radiusInWords),
    measured("the radius at the end", ({ surface }) => surface.camberRadiusMm.end, radiusInWords),
    measured("the twist", ({ surface }) => surface.twistMm),
    measured("the cut", ({ planing }) => planing?.planeOffMm ?? null),
    measured("the thinnest edge left", ({ thickness }) => thickness?.edgeAfterMm ?? null),
    measured("the wood left over the underside hollow", ({ thickness }) => thickness?.centreAfterMm ?? null),
    told("dressings left", ({ thickness }) => String(thickness?.dressingsLeft ?? "not told")),
    ...cautionChanges(before.cautions, after.cautions),
  ];
  return changes.filter((change) => change !== null);
}

function wordsChanged(what: string, before: string, after: string): Change | null {
  return before === after ? null : { what, before, after, isBeyondU: null };
}

function measureChanged(
  what: string,
  before: Quantity | null,
  after: Quantity | null,
  words: (quantity: Quantity) => string,
): Change | null {
  if (before === null || after === null) {
    return wordsChanged(what, before ? words(before) : "not told", after ? words(after) : "not told");
  }
  const byMm = Math.abs(after.value - before.value);
  const isRounding = byMm < roundingMm && Math.abs(after.u - before.u) < roundingMm;
  if (isRounding || words(before) === words(after)) return null;
  return { what, before: words(before), after: words(after), isBeyondU: byMm > Math.hypot(before.u, after.u) };
}

function whereDeepest({ deepest }: Examination): string {
  return deepest
    ? `on the ${deepest.string} string at ${deepest.note}, ${deepest.position} position`
    : "no worn place found";
}

function stringsOf(...examinations: readonly Examination[]): readonly string[] {
  return [...new Set(examinations.flatMap(({ surface }) => surface.hollows.map(({ string }) => string)))];
}

function hollowUnder({ surface }: Examination, string: string): HollowUnderString | undefined {
  return surface.hollows.find((hollow) => hollow.string === string);
}

function radiusInWords({ value, u }: Quantity): string {
  return `${value.toFixed(1)} ${plusMinus(u, 1)} mm`;
}

function cautionChanges(before: readonly string[], after: readonly string[]): readonly Change[] {
  const gone = before.filter((caution) => !after.includes(caution));
  const come = after.filter((caution) => !before.includes(caution));
  return [
    ...gone.map((caution) => ({ what: "a caution", before: caution, after: "no longer said", isBeyondU: null })),
    ...come.map((caution) => ({ what: "a caution", before: "not said", after: caution, isBeyondU: null })),
  ];
}
