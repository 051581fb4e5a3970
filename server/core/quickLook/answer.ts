/**
 * The answer of a quick look: one of three, with every number that led to it.
 *
 *   dressing likely     something is out of its range by more than its uncertainty
 *   sound where looked  everything is inside by more than its uncertainty
 *   survey fully        anything else; and where the board is loose or humped from end to end, since then the cause comes first
 *
 * It decides nothing about wood: the verdict stays "undecided" until the board is surveyed. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Gauge, Job } from "../board/settings.ts";
import type { Change, Decision, NextReading, QuickAnswer, Reason, Thickness, Verdict } from "../examination.ts";
import { certaintyOf, probabilityUnder } from "../thickness/conformity.ts";
import { calliperUMm, leastToSpare } from "../thickness/remaining.ts";
import type { Looked } from "./looked.ts";
import { type Respect, respectsOf } from "./respects.ts";

export type Task = {
  readonly instrument: Instrument;
  readonly gauge: Gauge;
  readonly job: Job;
  readonly thickness: Thickness | null;
};

export function answerTo(
  looked: Looked,
  task: Task,
  nextFor: (open: readonly Respect[]) => NextReading | null,
): Verdict {
  const respects = respectsOf(looked, task.instrument, task.job);
  const causes = causeReasons(looked, task.job);
  const quickLook = causes.length > 0 ? "survey fully" : answerFrom(respects);
  const open = respects.filter(({ certainty }) => certainty === "possible" || certainty === "near");
  return {
    decision: "undecided",
    quickLook,
    reasons: [
      ...causes,
      ...toldOf(inOrder(respects)),
      ...thicknessReasons(task),
      ...(looked.assumed.length === 0 ? [] : [inWords("assumed", `Taken for granted: ${looked.assumed.join("; ")}.`)]),
    ],
    wouldChange: surveyWould(quickLook, task),
    nextReading: quickLook === "survey fully" && causes.length === 0 ? nextFor(open) : null,
  };
}

function answerFrom(respects: readonly Respect[]): QuickAnswer {
  if (respects.some(({ certainty }) => certainty === "certain")) return "dressing likely";
  const isJudged = respects.some(({ reason }) => reason.limitMm !== null);
  return isJudged && respects.every(({ certainty }) => certainty === "none") ? "sound where looked" : "survey fully";
}

function inOrder(respects: readonly Respect[]): readonly Respect[] {
  const rank = { certain: 0, possible: 1, near: 2, none: 3 };
  return [...respects].sort((a, b) => rank[a.certainty] - rank[b.certainty]);
}

/** So many respects are told one by one; a scan along lines or crosslines has hundreds. */
const mostTold = 20;

/** The gravest by themselves, and in one sentence how the others came out. */
function toldOf(ordered: readonly Respect[]): readonly Reason[] {
  const told = ordered.slice(0, mostTold).map(({ reason }) => reason);
  const others = ordered.slice(mostTold);
  if (others.length === 0) return told;
  const out = others.filter(({ certainty }) => certainty === "certain").length;
  const inside = others.filter(({ certainty }) => certainty === "none").length;
  return [
    ...told,
    inWords(
      "more-looked-at",
      `Of ${others.length} more that were looked at ${out} are out of their range, ${inside} in it, and ${others.length - out - inside} too near its limit to say.`,
    ),
  ];
}

/** Two lines at least that rock, and none that doesn't: one alone may be a string's own hump. */
function causeReasons({ hollows }: Looked, { loose }: Job): readonly Reason[] {
  const isHumped = hollows.length >= 2 && hollows.every(({ hollowMm }) => hollowMm.value < -hollowMm.u);
  return [
    ...(loose ? [inWords("loose", "The board is loose: it must be glued before its shape means anything.")] : []),
    ...(isHumped
      ? [
          inWords(
            "bent",
            "The board is humped along every line looked at: the neck may have bent or the board come unglued. Find the cause before any wood goes.",
          ),
        ]
      : []),
  ];
}

function thicknessReasons({ thickness, instrument, gauge }: Task): readonly Reason[] {
  if (thickness === null) return [];
  const place = leastToSpare(thickness.places, "before");
  const limit = place.side === "centre" ? instrument.centreLimitMm : instrument.edgeLimitMm;
  const u = calliperUMm(gauge);
  const where = place.side === "centre" ? "over the underside hollow" : `at the ${place.side} edge`;
  const isUnder = certaintyOf(limit.value - place.beforeMm, u) === "certain";
  return [
    {
      code: "thickness-before",
      says: `Thickness ${where}, ${Math.round(place.xMm)} mm from the nut, today${isUnder ? ": already under the limit, so that a dressing would leave too little" : ""}.`,
      valueMm: place.beforeMm,
      u,
      limitMm: limit.value,
      origin: limit.origin,
      probability: probabilityUnder({ value: place.beforeMm, u }, limit.value),
    },
  ];
}

/** What a full survey would decide, if it finds what the quick look suggests; both ways where that suggests neither. */
function surveyWould(quickLook: QuickAnswer, { job }: Task): readonly Change[] {
  const survey = "a full survey (7 lines by 11 crosslines, and the thickness of the edges)";
  const forRestorer = job.build !== "solid" || job.valuable;
  const outcome: Decision = job.loose ? "cause" : forRestorer ? "restorer" : job.newBoard ? "shape" : "dress";
  const sound: Change = { what: "readings", says: `If ${survey} finds no more than was seen here`, decision: "leave" };
  const worn: Change = {
    what: "readings",
    says: `If ${survey} finds wear or shape out of range, and wood enough`,
    decision: outcome,
  };
  if (job.loose) return [];
  if (quickLook === "sound where looked") return [sound];
  return quickLook === "dressing likely" ? [worn] : [sound, worn];
}

function inWords(code: string, says: string): Reason {
  return { code, says, valueMm: null, u: null, limitMm: null, origin: null, probability: null };
}
