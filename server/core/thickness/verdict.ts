/**
 * The verdict: the decision with the numbers that led to it and what would change it.
 *
 * in: shape, worn places, plan, thickness -> out: decision, reasons in the order a luthier reads them, changes.
 * Rules: decide.ts. Limits and their origins: the instrument's. Lengths in mm.
 */
import type { Job } from "../board/settings.ts";
import type { Decision, Reason, ThicknessPlace, Verdict } from "../examination.ts";
import type { Quantity } from "../units.ts";
import { certaintyOf, chanceInWords, isClose } from "./conformity.ts";
import { decide, type Facts, isOpen } from "./decide.ts";
import { type Findings, rutTooNarrow, stringWithoutLine } from "./findings.ts";
import { type Need, needsOf } from "./needs.ts";
import { nextReading } from "./nextReading.ts";
import { openReasons } from "./openReasons.ts";
import { calliperUMm, leastToSpare, spareMm } from "./remaining.ts";
import { thicknessReasons } from "./thicknessReasons.ts";
import { type Tried, wouldChange } from "./wouldChange.ts";

/** The verdict; `tried` says what it would be under other settings. */
export function verdictOn(findings: Findings, tried: Tried): Verdict {
  const { needs, facts, decision } = decided(findings);
  const open = openReasons(findings, facts);
  return {
    decision,
    quickLook: null,
    reasons: [
      ...causeReasons(findings, facts),
      ...(isNeeded(needs) ? [] : open),
      ...needReasons(needs, facts),
      ...(isNeeded(needs) ? open : []),
      ...buildReasons(findings.job, needs),
      ...planReasons(findings, needs),
      ...thicknessReasons(findings, isNeeded(needs)),
    ],
    wouldChange: wouldChange(findings, needs, facts, decision, tried),
    nextReading: nextReading(findings, needs, facts),
  };
}

/** The decision alone, with the needs and facts it rests on. */
export function decided(findings: Findings): { needs: readonly Need[]; facts: Facts; decision: Decision } {
  const all = needsOf(findings.shape, findings.wornPlaces, findings.instrument, findings.job);
  // What was not measured is not judged.
  const needs = findings.surface.assumed.includes("camber") ? all.filter(({ respect }) => respect !== "camber") : all;
  const facts = factsFrom(findings, needs);
  return { needs, facts, decision: decide(facts) };
}

function factsFrom(findings: Findings, needs: readonly Need[]): Facts {
  const { job, instrument, shape, wornPlaces, hasPlan, thickness, gauge } = findings;
  const mayHang = wornPlaces.some((place) => place.atLeast);
  const isWidthMeasured = instrument.rutWidthMm.source === "given";
  return {
    job,
    isHumpedLengthwise: [findings.centreHollowMm, ...shape.hollows.map(({ hollowMm }) => hollowMm)].every(
      (hollow) => certaintyOf(-hollow.value, hollow.u) === "certain",
    ),
    needs: needs.map((need) => need.certainty),
    hasUnbottomedRut: isWidthMeasured && mayHang,
    mayGoDeeper: !isWidthMeasured && mayHang,
    hasStringUnread: stringWithoutLine(findings) !== null,
    isTipBlind: rutTooNarrow(findings) !== null,
    isWearHiddenByNoise: findings.leastWearMm > instrument.dressAtMm.value,
    isCamberUntold: findings.surface.assumed.includes("camber"),
    hasPlan,
    marginBeforeMm: thickness && leastMargin(thickness.places, "before", calliperUMm(gauge)),
    marginAfterMm: thickness && hasPlan ? leastMargin(thickness.places, "after", thickness.edgeAfterMm.u) : null,
  };
}

function leastMargin(places: readonly ThicknessPlace[], when: "before" | "after", u: number): Quantity | null {
  const value = spareMm(leastToSpare(places, when), when);
  return value === null ? null : { value, u };
}

function causeReasons({ job }: Findings, facts: Facts): readonly Reason[] {
  return [
    ...(job.loose ? [inWords("loose", "The board is loose: it must be glued before its shape means anything.")] : []),
    ...(facts.isHumpedLengthwise
      ? [
          inWords(
            "bent",
            "The board is humped along every string: the neck may have bent or the board come unglued. Find the cause before any wood goes.",
          ),
        ]
      : []),
  ];
}

/** What is over its limit, the furthest first; where nothing is, how near the nearest comes. */
function needReasons(needs: readonly Need[], facts: Facts): readonly Reason[] {
  const over = needs.filter((need) => need.certainty === "certain" || need.certainty === "possible");
  if (over.length > 0) return inOrder(over).map(nuanced);
  const near = needs.filter((need) => need.certainty === "near");
  const wear = needs.filter((need) => need.respect === "wear" && need.certainty === "none");
  return [
    isOpen(facts)
      ? inWords("sound-where-read", "As far as these readings can tell, wear and shape are within their limits.")
      : inWords("sound", "Wear and shape are within their limits."),
    ...wear.map((need) => need.reason),
    ...inOrder(near).map(nuanced),
  ];
}

function inOrder(needs: readonly Need[]): readonly Need[] {
  const rank = { certain: 0, possible: 1, near: 2, none: 3 };
  return [...needs].sort((a, b) => rank[a.certainty] - rank[b.certainty]);
}

/** How near the limit, in words, where the uncertainty reaches across it. */
function nuanced({ reason, certainty, respect, subject }: Need): Reason {
  const mayBeSlip = subject.of === "place" && subject.standsAlone;
  if (!isClose(certainty) || mayBeSlip) return reason;
  const isOver = certainty === "possible";
  const isSize = respect === "wear" || respect === "hump";
  const [where, truly] = isSize
    ? [isOver ? "Over that" : "Under that", isOver ? "truly is over" : "is over after all"]
    : [isOver ? "Outside" : "Inside", isOver ? "truly is outside" : "is outside after all"];
  const chance = reason.probability === null ? "" : `: ${chanceInWords(reason.probability)} that it ${truly}`;
  return { ...reason, says: `${reason.says} ${where}, but by less than the uncertainty${chance}.` };
}

function planReasons({ hasPlan }: Findings, needs: readonly Need[]): readonly Reason[] {
  if (hasPlan || !isNeeded(needs)) return [];
  return [
    inWords("no-target", "No target within 50 mm of the board lies below it: are the heights and their unit right?"),
  ];
}

function isNeeded(needs: readonly Need[]): boolean {
  return needs.some((need) => need.certainty === "certain" || need.certainty === "possible");
}

function buildReasons(job: Job, needs: readonly Need[]): readonly Reason[] {
  if (!isNeeded(needs)) return [];
  const says = {
    solid: null,
    unknown:
      "Nobody has said what the board is made of: before wood goes, make sure that it is solid, not veneered or dyed.",
    veneered: "The board is veneered: there is hardly any wood to plane.",
    dyed: "The board is dyed: planing shows pale wood.",
  }[job.build];
  return [
    ...(says ? [inWords("build", says)] : []),
    ...(job.valuable
      ? [inWords("valuable", "The instrument is valuable: a restorer decides before any wood goes.")]
      : []),
  ];
}

function inWords(code: string, says: string): Reason {
  return { code, says, valueMm: null, u: null, limitMm: null, origin: null, probability: null };
}
