/**
 * The examination of a board, start to end: read this first. Each step is a folder beside this file.
 *
 *   readings      what the bench gave, checked: heights at places, thicknesses
 *   compensation  the rail's error, the gauge's drift and the strings' pull taken out
 *   surface       the unworn surface behind them (tip compensated on its slopes), its hollows, camber and twist
 *   wear          what is missing below it: at each reading, as a map, as named places
 *   planing       the target and the least cut that reaches it
 *   thickness     what is left then, and the verdict
 *
 * Pure: the same given makes the same examination. Lengths in mm; every u is expanded (coverage factor 2).
 */
import type { Instrument } from "./board/instrument.ts";
import type { Job } from "./board/settings.ts";
import { cautionsFor, ofCrosslines, ofLoneChecks, ofRuts } from "./cautions.ts";
import { correctedReadings, hollowUMm } from "./compensation/correctedReadings.ts";
import type { Examination, Thickness, Verdict } from "./examination.ts";
import type { Fault } from "./fault.ts";
import { type Checked, checkGiven, type Given, settingsWith } from "./given.ts";
import { worthATemplateMm } from "./planing/arc.ts";
import { edgePlaces, outlinePlaces, readingPlaces } from "./planing/cutPlaces.ts";
import { type CutSpread, cutSpread } from "./planing/cutSpread.ts";
import { profiles, sections } from "./planing/linesPlan.ts";
import { placesWithCost } from "./planing/placeCosts.ts";
import { planingMaps } from "./planing/planingMap.ts";
import { type CutPlan, mostToSpare, type PlanTask, planBoard } from "./planing/planingPlan.ts";
import { cutUMm, planingSummary, presentCutMm, unwornCutMm } from "./planing/planingSummary.ts";
import { deepestOf, pointsOf } from "./planing/points.ts";
import { secondAim } from "./planing/secondAim.ts";
import { sparePlaces } from "./planing/sparePlaces.ts";
import { isSamePlan, type TargetChoice, targetChoice, targetHollowsMm } from "./planing/targetChoice.ts";
import { targetShape } from "./planing/targetSurface.ts";
import { templatesCompared } from "./planing/templates.ts";
import { wideningOf } from "./planing/wideningThatKeeps.ts";
import { quickLookAtGaps, quickLookAtHeights } from "./quickLook/quickLook.ts";
import { longestHiddenPitMm } from "./readings/betweenCrosslines.ts";
import { type Pattern, patternOfReadings } from "./readings/patternOfReadings.ts";
import { repeatSdMm } from "./readings/repeats.ts";
import { isTooFewForSurvey, partOfBoardFault, tooFewGapsFault, tooFewToLookFault } from "./readings/tooFew.ts";
import { unreadPaths } from "./readings/unreadPath.ts";
import { notArched, risesToItsEdges } from "./surface/isBoard.ts";
import { hollowAlongCentre, shapeOfBoard } from "./surface/shapeOfBoard.ts";
import { fitUnwornSurface, type UnwornSurface } from "./surface/unwornSurface.ts";
import { type Findings, hasDeeperRut, unheededRuts } from "./thickness/findings.ts";
import { narrowestRut } from "./thickness/narrowestRut.ts";
import { thicknessAfterUMm, thicknessRemaining } from "./thickness/remaining.ts";
import { decided, verdictOn } from "./thickness/verdict.ts";
import { wearAtReadings } from "./wear/wearAtReadings.ts";
import { wearMap } from "./wear/wearMap.ts";
import { findWornPlaces, leastWearMm } from "./wear/wornPlaces.ts";

export type Examined =
  | { readonly outcome: "examined"; readonly examination: Examination }
  | { readonly outcome: "faulty"; readonly faults: readonly Fault[] };

/** Examine a board, or tell every fault in what was given. With any fault there is no examination. */
export function examine(given: Given): Examined {
  const checked = checkGiven(given);
  if (checked.outcome === "faulty") return checked;
  const pattern = patternOfReadings(checked.readings, checked.instrument);
  if (checked.gaps || isTooFewForSurvey(checked.readings, pattern)) return lookQuickly(checked, pattern, given.version);
  const seen = see(checked, pattern);
  if (seen.outcome === "faulty") return seen;

  const judgement = judge(seen, checked.instrument, checked.job);
  const verdict = verdictOn(judgement.findings, {
    decisionWith: (settings) => {
      const other = settingsWith(given, settings);
      const seenSo = other && { ...seen, gauge: other.gauge };
      return seenSo && decided(judge(seenSo, other.instrument, other.job, judgement).findings).decision;
    },
    mostToSpare: () => judgement.plan && mostToSpare(judgement.task, judgement.plan),
  });
  return { outcome: "examined", examination: assemble(checked, seen, judgement, verdict, given.version) };
}

/** Gaps, or too few heights for a survey: what they tell all the same, and whether a survey is due. */
function lookQuickly(checked: Checked, pattern: Pattern, version: string): Examined {
  const { readings, gaps, rail, instrument, gauge, job } = checked;
  const thickness = thicknessRemaining(checked.thickness, null, 0, instrument, gauge);
  const task = { instrument, gauge, job, thickness };
  const corrected = correctedReadings(readings, rail, instrument, gauge);
  if (gaps === null && risesToItsEdges(corrected.readings)) {
    return { outcome: "faulty", faults: [notFittedFault(notArched)] };
  }
  const look = gaps ? quickLookAtGaps(gaps, task) : quickLookAtHeights(corrected, pattern, task);
  if (look === null) {
    const fault = gaps
      ? tooFewGapsFault(gaps)
      : (partOfBoardFault(readings, instrument) ?? tooFewToLookFault(readings, pattern));
    return { outcome: "faulty", faults: [fault] };
  }
  const isTipGiven = gaps !== null || checked.isTipGiven;
  const cautions = [
    ...ofLoneChecks(readings, corrected.drift),
    ...cautionsFor({ ...checked, isTipGiven, drift: corrected.drift }, look.verdict.decision),
  ];
  return { outcome: "examined", examination: { version, ...look, cautions } };
}

/** What the readings show, whatever the workshop holds to be right: the unworn surface, and what is missing below it. */
function see({ readings, rail, instrument, gauge, thickness }: Checked, pattern: Pattern) {
  const part = partOfBoardFault(readings, instrument);
  if (part) return { outcome: "faulty" as const, faults: [part] };

  const corrected = correctedReadings(readings, rail, instrument, gauge);
  const fitted = fitUnwornSurface(corrected.readings, instrument, gauge);
  if (fitted.outcome === "not-fitted") return { outcome: "faulty" as const, faults: [notFittedFault(fitted.why)] };
  const { surface, compensated } = fitted;

  const wear = wearAtReadings(compensated, surface);
  const map = wearMap(wear, pattern.crosslinesMm, instrument);
  const unread = unreadPaths(readings, instrument);
  return { outcome: "seen" as const, pattern, unread, corrected, surface, compensated, wear, map, gauge, thickness };
}

type Seen = Extract<ReturnType<typeof see>, { outcome: "seen" }>;

/**
 * What follows from it for a workshop's targets and limits: worn places, shape, plan, and the thickness that is left.
 * What was found already for the same targets and limits (`earlier`) is taken over: worn places, plan, how uncertain a cut is.
 */
function judge(seen: Seen, instrument: Instrument, job: Job, earlier?: Judgement): Judgement {
  const { pattern, corrected, surface, compensated, wear, map, gauge, thickness } = seen;
  const hollowUncertaintyMm = hollowUMm(corrected, instrument, gauge);
  const wornPlaces =
    earlier && isSameWear(earlier.findings.instrument, instrument)
      ? earlier.findings.wornPlaces
      : findWornPlaces(wear, map, surface, instrument, gauge);
  const leastMm = leastWearMm(surface, instrument, gauge, wear.readings.length);

  const choice = targetChoice(surface, instrument, job);
  const shape = shapeOfBoard(
    surface,
    compensated,
    instrument,
    gauge,
    targetHollowsMm(choice, instrument),
    hollowUncertaintyMm,
  );

  const ground = {
    choice,
    places: [...readingPlaces(wear, surface), ...edgePlaces(pattern.crosslinesMm, surface, instrument)],
    outlinePlaces: outlinePlaces(surface, instrument),
    allowanceMm: instrument.allowanceMm.value,
  };
  const spread = earlier
    ? earlier.spread
    : cutSpread(ground, surface, new Set(wornPlaces.flatMap(({ members }) => members)));
  const task: PlanTask = {
    ...ground,
    sparePlaces: sparePlaces(thickness, surface, map, instrument),
    plainWithinMm: worthATemplateMm(instrument, job),
    spareUMm: thicknessAfterUMm(cutUMm(spread, gauge), gauge),
    secondAim: secondAim(instrument, job.spare),
  };
  const plan =
    earlier && isSamePlan(earlier.findings, { instrument, job })
      ? earlier.plan
      : isCamberTold(surface)
        ? planBoard(task)
        : null;
  return {
    choice,
    task,
    spread,
    plan,
    findings: {
      instrument,
      job,
      gauge,
      unreadPaths: seen.unread,
      surface,
      shape,
      centreHollowMm: hollowAlongCentre(surface, gauge, hollowUncertaintyMm),
      wornPlaces,
      leastWearMm: leastMm,
      narrowestRut: narrowestRut(surface, instrument, gauge, leastMm),
      hasPlan: plan !== null,
      thickness: thicknessAfter(plan, spread, seen, instrument),
    },
  };
}

/** The thickness that a plan leaves; as it is today where there is no plan. */
function thicknessAfter(plan: CutPlan | null, spread: CutSpread, seen: Seen, instrument: Instrument): Thickness | null {
  const { surface, map, gauge, thickness } = seen;
  if (plan === null) return thicknessRemaining(thickness, null, 0, instrument, gauge);
  const cutsMm = thickness.map((reading) =>
    reading.side === "centre" ? presentCutMm(plan, surface, map, reading) : unwornCutMm(plan, surface, reading),
  );
  return thicknessRemaining(thickness, cutsMm, cutUMm(spread, gauge), instrument, gauge);
}

type Judgement = {
  readonly choice: TargetChoice;
  readonly task: PlanTask;
  readonly spread: CutSpread;
  readonly plan: CutPlan | null;
  readonly findings: Findings;
};

function assemble(
  checked: Checked,
  seen: Seen,
  { choice, task, spread, plan, findings }: Judgement,
  verdict: Verdict,
  version: string,
): Examination {
  const { instrument, gauge, job, readings } = checked;
  const { pattern, corrected, surface, wear, map } = seen;
  const target = plan ? plan.shape : null;
  const targetOrSet = target ?? targetShape(choice.frame, choice.start);
  return {
    version,
    instrument,
    readings: {
      count: readings.condensedFrom ?? readings.readings.length,
      condensedTo: readings.condensedFrom === undefined ? null : readings.readings.length,
      pointsTold: "all",
      crosslines: pattern.crosslinesMm.length,
      lines: pattern.lines,
      setups: readings.setups.length,
      repeatSdMm: repeatSdMm(corrected.readings),
      drift: corrected.drift,
      hiddenRutMm: findings.unreadPaths.widest?.widestRutMm ?? null,
      enoughFor: isCamberTold(surface) ? ["hollow", "camber", "wear", "planing"] : ["hollow", "wear"],
    },
    surface: findings.shape,
    points: pointsOf(wear.readings, target, surface.plan),
    deepest: deepestOf(findings.wornPlaces),
    wornPlaces: placesWithCost(findings.wornPlaces, plan, task),
    planing: plan && {
      ...planingSummary(plan, surface, map, instrument, gauge, choice, spread),
      aim: job.aim,
      widening: wideningOf(task, plan, surface, instrument, job),
      atLeast: hasDeeperRut(findings),
      templates: templatesCompared(
        task,
        surface,
        instrument,
        job,
        (other) => thicknessAfter(other, spread, seen, instrument)?.dressingsLeft ?? null,
      ),
    },
    thickness: findings.thickness,
    maps: planingMaps(map, plan, surface, instrument),
    profiles: profiles(surface, map, target, instrument),
    sections: sections(surface, map, target, targetOrSet, pattern.crosslinesMm, instrument),
    verdict,
    cautions: [
      ...ofCrosslines(longestHiddenPitMm(pattern.crosslinesMm, instrument), verdict.decision),
      ...ofRuts(unheededRuts(findings), gauge, verdict.decision),
      ...ofLoneChecks(readings, corrected.drift),
      ...cautionsFor({ ...checked, drift: corrected.drift }, verdict.decision),
    ],
  };
}

/** Whether the same places count as worn under both. */
function isSameWear(one: Instrument, other: Instrument): boolean {
  return one.dressAtMm.value === other.dressAtMm.value && one.rutWidthMm.value === other.rutWidthMm.value;
}

/** Without the arc across there is no cut to be told. */
function isCamberTold({ assumed }: UnwornSurface): boolean {
  return !assumed.includes("camber");
}

function notFittedFault(why: string): Fault {
  return {
    where: "readings",
    line: null,
    column: null,
    code: "not-fitted",
    saw: "these readings don't determine the shape of a board",
    remedy: `It may be that ${why} Otherwise read at least 5 lines across and 7 crosslines along, spread over the whole board.`,
  };
}
