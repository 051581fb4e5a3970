/**
 * What would change the verdict: a default that the workshop may not share, or a measurement not yet made.
 *
 * Another setting is tried by judging the board again with it; only what turns the decision is told. Numbers are rounded away from
 * where the decision turns, so that the setting as told leads where it says. Lengths in mm.
 */
import type { Figure } from "../board/instrument.ts";
import type { Change, Decision } from "../examination.ts";
import type { MostToSpare } from "../planing/planingPlan.ts";
import { isClose } from "./conformity.ts";
import { decide, type Facts, strongest, tooThin } from "./decide.ts";
import { type Findings, stringWithoutLine } from "./findings.ts";
import { howToSettle } from "./howToSettle.ts";
import { crosslineInWords, type Need } from "./needs.ts";
import { cutUMm, leastToSpare, thicknessPlaceInWords, withMicrometer } from "./remaining.ts";
import { plusMinus } from "./sayings.ts";

/** Another setting, as the workshop would write it. */
export type OtherSetting = { readonly key: string; readonly value: string };

/** What the board would be under other settings. */
export type Tried = {
  /** Null where the settings don't fit together. */
  readonly decisionWith: (settings: readonly OtherSetting[]) => Decision | null;
  /** Of all plans, the most that can be kept of the wood above the limits; null without thickness. */
  readonly mostToSpare: () => MostToSpare | null;
};

export function wouldChange(
  findings: Findings,
  needs: readonly Need[],
  facts: Facts,
  decision: Decision,
  tried: Tried,
): readonly Change[] {
  const settings = [
    ...saidTension(findings, needs),
    ...otherWearLimit(findings, needs),
    ...otherTolerances(findings, needs),
    ...otherRadius(findings, needs),
    ...otherBuild(facts),
  ];
  return [
    ...settings.flatMap(({ what, says, settings: other }): readonly Change[] => {
      const would = tried.decisionWith(other);
      return would === null || would === decision ? [] : [{ what, says, decision: would }];
    }),
    ...otherEdgeLimit(findings, facts, decision, tried),
    ...measurements(findings, needs, facts, decision),
  ];
}

type Candidate = { readonly what: string; readonly says: string; readonly settings: readonly OtherSetting[] };

/** Nobody said whether the strings were at pitch, which leaves hollows less certain. With the strings at pitch the heights are as read. */
function saidTension({ gauge }: Findings, needs: readonly Need[]): readonly Candidate[] {
  const isOpen = needs.some(({ respect, certainty }) => respect === "hollow" && certainty === "possible");
  if (gauge.tension !== "unknown" || !isOpen) return [];
  const says = "Say whether the strings were at pitch (tension). If they were";
  return [{ what: "tension", says, settings: [{ key: "tension", value: "on" }] }];
}

/** The depth that calls for a dressing, moved to the other side of the deepest wear. */
function otherWearLimit({ instrument }: Findings, needs: readonly Need[]): readonly Candidate[] {
  const wear = needs.find((need) => need.respect === "wear");
  const { valueMm, u } = wear?.reason ?? {};
  if (!valueMm || !u) return [];
  const isOver = valueMm > instrument.dressAtMm.value;
  const limitMm = isOver ? hundredthAbove(valueMm) : hundredthBelow(valueMm - u);
  if (limitMm <= 0) return [];
  const words = isOver ? "only from" : "already from";
  return [
    candidate("dress_at", limitMm, `If a dressing were due ${words} ${told(limitMm)} mm of wear`, instrument.dressAtMm),
  ];
}

/** A tolerance so wide that the shape counts as right. */
function otherTolerances({ instrument }: Findings, needs: readonly Need[]): readonly Candidate[] {
  const respects = [
    { respect: "hollow", key: "hollow_tolerance", what: "a hollow", tolerance: instrument.hollowToleranceMm },
    { respect: "camber", key: "radius_tolerance", what: "a radius", tolerance: instrument.radiusToleranceMm },
  ] as const;
  return respects.flatMap(({ respect, key, what, tolerance }) => {
    const over = needs.filter((need) => need.respect === respect && need.overMm > 0);
    if (over.length === 0) return [];
    const enoughMm = hundredthAbove(tolerance.value + Math.max(...over.map((need) => need.overMm)));
    return [candidate(key, enoughMm, `If ${what} within ± ${told(enoughMm)} mm still counted as right`, tolerance)];
  });
}

/** The radius that the board has, as the one to aim at: a workshop may own that template. */
function otherRadius({ instrument, shape }: Findings, needs: readonly Need[]): readonly Candidate[] {
  if (!needs.some((need) => need.respect === "camber" && need.overMm > 0)) return [];
  const { nut, middle, end } = shape.camberRadiusMm;
  const value = Math.round((nut.value + middle.value + end.value) / 3);
  const now = instrument.radiusMiddleMm;
  return [
    {
      what: "radius",
      says: `If the arc should be R ${value} mm all along (now ${now.value} mm in the middle, ${now.origin})`,
      settings: ["radius_nut", "radius_middle", "radius_end"].map((key) => ({ key, value: String(value) })),
    },
  ];
}

/**
 * The edge limit, moved just to the other side of what the best plan can keep beyond the uncertainty: a hair more and no plan is
 * clear of it, a hair less and one is.
 */
function otherEdgeLimit(findings: Findings, facts: Facts, decision: Decision, tried: Tried): readonly Change[] {
  const mayTurn = decision === "dress" || decision === "shape" || decision === "borderline" || decision === "replace";
  const spare = mayTurn && facts.marginBeforeMm && facts.marginAfterMm ? tried.mostToSpare() : null;
  if (!spare?.isEdge || !facts.marginBeforeMm || !facts.marginAfterMm) return [];
  const limit = findings.instrument.edgeLimitMm;
  const isClear = spare.mm >= 0;
  const limitMm = isClear ? hundredthAbove(limit.value + spare.mm) : hundredthBelow(limit.value + spare.mm);
  if (limitMm <= 0) return [];
  const { u } = facts.marginAfterMm;
  const would = decide({
    ...facts,
    marginBeforeMm: { ...facts.marginBeforeMm, value: facts.marginBeforeMm.value + limit.value - limitMm },
    marginAfterMm: { value: limit.value + spare.mm - limitMm + u, u },
  });
  const says = `If the edges had to keep ${isClear ? "at least" : "only"} ${told(limitMm)} mm`;
  const { what, says: inFull } = candidate("edge_limit", limitMm, says, limit);
  return would === decision ? [] : [{ what, says: inFull, decision: would }];
}

function candidate(key: string, value: number, says: string, now: Figure): Candidate {
  return { what: key, says: `${says} (now ${now.value} mm, ${now.origin})`, settings: [{ key, value: told(value) }] };
}

function otherBuild({ job }: Facts): readonly Candidate[] {
  if (job.valuable) {
    return [
      {
        what: "valuable",
        says: "If the instrument were not valuable and its board solid",
        settings: [
          { key: "valuable", value: "no" },
          { key: "build", value: "solid" },
        ],
      },
    ];
  }
  if (job.build !== "unknown") return [];
  return [{ what: "build", says: "If the board is solid", settings: [{ key: "build", value: "solid" }] }];
}

/** Measurements that would settle what is open; the decision told is the one they lead to if they turn out well. */
function measurements(findings: Findings, needs: readonly Need[], facts: Facts, decision: Decision): readonly Change[] {
  if (decision === "undecided") return toDecide(findings, facts);
  if (decision !== "borderline") return [];
  const settled: Facts = { ...facts, needs: facts.needs.map((c) => (c === "possible" ? "none" : c)) };
  const unsure = needs.filter((need) => need.certainty === "possible");
  const proves = unsure.length > 1 ? "it and the rest prove within their limits" : "it proves within its limit";
  return [
    ...unsure.slice(0, mostNeedsTold).map((need) => ({
      what: "readings",
      says: `To settle ${inShort(need, findings)}: ${howToSettle(findings, need)}. If ${proves}`,
      decision: decide(settled),
    })),
    ...thicknessAgain(findings, facts),
  ].filter((change) => change.decision !== decision);
}

const mostNeedsTold = 3;

function inShort({ subject, respect }: Need, { instrument }: Findings): string {
  switch (subject.of) {
    case "place":
      return respect === "wear" ? "the wear" : "the hump";
    case "hollow":
      return `the hollow under ${instrument.strings[subject.stringIndex]}`;
    case "camber":
      return `the radius at ${crosslineInWords[subject.at]}`;
  }
}

/** A micrometer on the thinnest place, where that is enough; else the cut itself is what is not known well enough. */
function thicknessAgain({ thickness, gauge }: Findings, facts: Facts): readonly Change[] {
  const close = tooThin(facts.marginAfterMm);
  if (thickness === null || facts.marginAfterMm === null || close === null || !isClose(close)) return [];
  const place = leastToSpare(thickness.places, "after");
  const isEnough = withMicrometer(place.u, gauge) <= Math.abs(facts.marginAfterMm.value);
  const where = thicknessPlaceInWords(place);
  const says = isEnough
    ? `To settle the thickness: measure ${where} again with a micrometer, and say so (calliper_error). If it has wood to spare`
    : `The calliper can't settle the thickness, since the cut itself is known to ${plusMinus(cutUMm(place.u, gauge))} mm only: take a light first cut, then read the board and measure ${where} again. If it has wood to spare`;
  return [{ what: "thickness", says, decision: decide({ ...facts, marginAfterMm: woodToSpare }) }];
}

const woodToSpare = { value: 1, u: 0 } as const;

/** Everything that is missing before a decision; each told with what the board would be once all of it turned out well. */
function toDecide(findings: Findings, facts: Facts): readonly Change[] {
  const wellMeasured = decide({
    ...facts,
    hasUnbottomedRut: false,
    mayGoDeeper: false,
    hasStringUnread: false,
    isTipBlind: false,
    isWearHiddenByNoise: false,
    isCamberUntold: false,
    hasPlan: facts.hasPlan || facts.isCamberUntold,
    marginAfterMm: facts.marginAfterMm ?? woodToSpare,
  });
  if (wellMeasured === "undecided") return [];
  const { thickness } = findings;
  const withoutLine = stringWithoutLine(findings);
  const need = strongest(facts.needs);
  const isNeeded = need === "certain" || need === "possible";
  return [
    ...(facts.isCamberUntold
      ? [
          {
            what: "readings",
            says: "If two or three passes across tie the set-ups together, and the arc proves right",
            decision: wellMeasured,
          },
        ]
      : []),
    ...(facts.hasUnbottomedRut || facts.mayGoDeeper
      ? [{ what: "tip_radius", says: "If the rut, read with a finer tip, proves no deeper", decision: wellMeasured }]
      : []),
    ...(facts.isTipBlind
      ? [
          {
            what: "tip_radius",
            says: "If a finer tip, a point, or the eye against the light finds no rut under the strings",
            decision: wellMeasured,
          },
        ]
      : []),
    ...(withoutLine
      ? [
          {
            what: "readings",
            says: `If a line of readings under the ${withoutLine.string} string shows no rut`,
            decision: wellMeasured,
          },
        ]
      : []),
    ...(facts.isWearHiddenByNoise
      ? [{ what: "readings", says: "If steadier readings show no more wear", decision: wellMeasured }]
      : []),
    ...(thickness === null && isNeeded
      ? [
          {
            what: "thickness",
            says: "If the edges, measured with a calliper, have wood to spare",
            decision: wellMeasured,
          },
        ]
      : []),
  ];
}

function hundredthAbove(mm: number): number {
  return (Math.floor(mm * 100) + 1) / 100;
}

function hundredthBelow(mm: number): number {
  return (Math.ceil(mm * 100) - 1) / 100;
}

function told(mm: number): string {
  return mm.toFixed(2);
}
