/**
 * The verdict: the decision with the numbers that led to it and what would change it.
 *
 * in: shape, worn places, plan, thickness -> out: decision, reasons in the order a luthier reads them, changes.
 * Rules: decide.ts. Limits and their origins: the instrument's. Lengths in mm.
 */
import type { Job } from "../board/settings.ts";
import type { Decision, Reason, ThicknessPlace, Verdict } from "../examination.ts";
import type { Quantity } from "../units.ts";
import { decide, type Facts } from "./decide.ts";
import type { Findings } from "./findings.ts";
import { type Need, needsOf } from "./needs.ts";
import { calliperUMm } from "./remaining.ts";
import { type Tried, wouldChange } from "./wouldChange.ts";

/** The verdict; `tried` says what it would be under other settings. */
export function verdictOn(findings: Findings, tried: Tried): Verdict {
  const { needs, facts, decision } = decided(findings);
  const openReasons = [...tipReasons(findings), ...noiseReasons(findings, facts)];
  return {
    decision,
    quickLook: null,
    reasons: [
      ...causeReasons(findings, facts),
      ...(isNeeded(needs) ? [] : openReasons),
      ...needReasons(needs, facts),
      ...(isNeeded(needs) ? openReasons : []),
      ...buildReasons(findings.job, needs),
      ...planReasons(findings, needs),
      ...thicknessReasons(findings),
    ],
    wouldChange: wouldChange(findings, needs, facts, decision, tried),
    nextReading: null,
  };
}

/** The decision alone, with the needs and facts it rests on. */
export function decided(findings: Findings): { needs: readonly Need[]; facts: Facts; decision: Decision } {
  const needs = needsOf(findings.shape, findings.wornPlaces, findings.instrument, findings.job);
  const facts = factsFrom(findings, needs);
  return { needs, facts, decision: decide(facts) };
}

function factsFrom(findings: Findings, needs: readonly Need[]): Facts {
  const { job, instrument, shape, wornPlaces, hasPlan, thickness } = findings;
  return {
    job,
    isHumpedLengthwise: [findings.centreHollowMm, ...shape.hollows.map(({ hollowMm }) => hollowMm)].every(
      (hollow) => hollow.value < -hollow.u,
    ),
    needs: needs.map((need) => need.certainty),
    hasUnbottomedRut: wornPlaces.some((place) => place.atLeast),
    isWearHiddenByNoise: findings.leastWearMm > instrument.dressAtMm.value,
    hasPlan,
    marginBeforeMm: thickness && leastMargin(thickness.places, (place) => place.beforeMm, calliperUMm),
    marginAfterMm:
      thickness && hasPlan ? leastMargin(thickness.places, (place) => place.afterMm, thickness.edgeAfterMm.u) : null,
  };
}

function leastMargin(
  places: readonly ThicknessPlace[],
  thicknessOf: (place: ThicknessPlace) => number | null,
  u: number,
): Quantity | null {
  const margins = places.flatMap((place) => {
    const thicknessMm = thicknessOf(place);
    return thicknessMm === null ? [] : [thicknessMm - place.limitMm];
  });
  return margins.length === 0 ? null : { value: Math.min(...margins), u };
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
  if (over.length > 0) return inOrder(over).map((need) => nuanced(need));
  const near = needs.filter((need) => need.certainty === "near");
  const wear = needs.filter((need) => need.respect === "wear" && need.certainty === "none");
  return [
    facts.hasUnbottomedRut || facts.isWearHiddenByNoise
      ? inWords("sound-where-read", "As far as these readings can tell, wear and shape are within their limits.")
      : inWords("sound", "Wear and shape are within their limits."),
    ...wear.map((need) => need.reason),
    ...inOrder(near).map((need) => nuanced(need)),
  ];
}

function inOrder(needs: readonly Need[]): readonly Need[] {
  const rank = { certain: 0, possible: 1, near: 2, none: 3 };
  return [...needs].sort((a, b) => rank[a.certainty] - rank[b.certainty]);
}

function nuanced(need: Need): Reason {
  if (need.certainty === "possible") {
    return {
      ...need.reason,
      says: `${need.reason.says} Over its limit, but by less than the uncertainty: to settle it, ${need.settle}.`,
    };
  }
  if (need.certainty === "near")
    return { ...need.reason, says: `${need.reason.says} Within the uncertainty of its limit.` };
  return need.reason;
}

function tipReasons({ wornPlaces }: Findings): readonly Reason[] {
  const unsure = wornPlaces.find((place) => place.atLeast);
  if (!unsure) return [];
  return [
    {
      code: "tip",
      says: `The rut under the ${unsure.string} string is at least this deep: the tip may hang on its rims. Read it again with a finer tip, or measure its width.`,
      valueMm: unsure.depthMm,
      u: unsure.u,
      limitMm: null,
      origin: null,
    },
  ];
}

function noiseReasons({ shape, leastWearMm, instrument }: Findings, facts: Facts): readonly Reason[] {
  if (!facts.isWearHiddenByNoise) return [];
  return [
    {
      code: "noise",
      says: `The readings scatter so much that only wear from ${leastWearMm.toFixed(2)} mm on shows: a dressing is due sooner. Read again with a steadier rail.`,
      valueMm: shape.noiseMm,
      u: null,
      limitMm: instrument.dressAtMm.value,
      origin: instrument.dressAtMm.origin,
    },
  ];
}

function planReasons({ hasPlan }: Findings, needs: readonly Need[]): readonly Reason[] {
  if (hasPlan || !isNeeded(needs)) return [];
  return [
    inWords(
      "no-target",
      "No target within the bounds lies below the board as it is: allow more at the bridge (projection_bound), for the crown (crown_bound), or in the bands.",
    ),
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

function thicknessReasons({ thickness, hasPlan, instrument }: Findings): readonly Reason[] {
  if (thickness === null) {
    return [inWords("thickness-missing", "The thickness at the edges was not measured: how much may go is not known.")];
  }
  const worst = thickness.places.reduce((least, place) => (margin(place) < margin(least) ? place : least));
  const where = worst.side === "centre" ? "over the underside hollow" : `at the ${worst.side} edge`;
  const limit = worst.side === "centre" ? instrument.centreLimitMm : instrument.edgeLimitMm;
  return [
    {
      code: hasPlan ? "thickness" : "thickness-before",
      says: `Thickness ${where}, ${Math.round(worst.xMm)} mm from the nut, ${hasPlan ? "after the least cut" : "today"}.`,
      valueMm: worst.afterMm ?? worst.beforeMm,
      u: worst.u,
      limitMm: limit.value,
      origin: limit.origin,
    },
  ];
}

function margin(place: ThicknessPlace): number {
  return (place.afterMm ?? place.beforeMm) - place.limitMm;
}

function inWords(code: string, says: string): Reason {
  return { code, says, valueMm: null, u: null, limitMm: null, origin: null };
}
