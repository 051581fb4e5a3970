/**
 * The quick look: what a few heights or a few gaps tell of a board in two minutes, and whether it needs a full survey.
 *
 * No map, no planing, no worn places: too few readings carry none. Hollows and radii where they were looked at, each with its
 * uncertainty, and one of three answers (answer.ts).
 *
 * in: gaps, or corrected heights with their pattern -> out: everything of an examination but version and cautions; null where
 * nothing could be told. Lengths in mm.
 */
import type { Corrected } from "../compensation/correctedReadings.ts";
import type { Examination, HollowState, HollowUnderString, Purpose, SurfaceSummary } from "../examination.ts";
import type { Gaps } from "../readings/gaps.ts";
import type { Pattern } from "../readings/patternOfReadings.ts";
import { repeatSdMm } from "../readings/repeats.ts";
import { unreadPaths } from "../readings/unreadPath.ts";
import type { Quantity } from "../units.ts";
import { answerTo, type Task } from "./answer.ts";
import { lookAtGaps } from "./lookAtGaps.ts";
import { lookAtHeights } from "./lookAtHeights.ts";
import type { Looked, LookedHollow, LookedRadius } from "./looked.ts";
import { nextLook } from "./nextLook.ts";

export type QuickLook = Omit<Examination, "version" | "cautions">;

export function quickLookAtGaps(gaps: Gaps, task: Task): QuickLook | null {
  const { instrument, gauge } = task;
  const looked = lookAtGaps(gaps, instrument, gauge);
  if (looked.hollows.length + looked.radii.length + looked.sides.length === 0) return null;
  const all = [...gaps.straightedge, ...gaps.template];
  const lines = new Set(gaps.straightedge.map(({ line }) => line)).size;
  const crosslines = new Set(gaps.template.map(({ xMm }) => Math.round(xMm))).size;
  return {
    ...lookedAt(looked, partOf(looked, task), task),
    readings: {
      count: all.length,
      condensedTo: null,
      pointsTold: "all",
      crosslines,
      lines,
      setups: 1,
      repeatSdMm: null,
      drift: null,
      hiddenRutMm: null,
      enoughFor: purposes(looked),
    },
    verdict: answerTo(looked, task, (open) => nextLook(open, null, "gap", instrument)),
  };
}

export function quickLookAtHeights(corrected: Corrected, pattern: Pattern, task: Task): QuickLook | null {
  const { instrument, gauge } = task;
  const { looked, surface, shape } = lookAtHeights(corrected, pattern, instrument, gauge);
  if (looked.hollows.length + looked.radii.length === 0) return null;
  const { readings, drift } = corrected;
  return {
    ...lookedAt(looked, shape ?? partOf(looked, task), task),
    readings: {
      count: readings.condensedFrom ?? readings.readings.length,
      condensedTo: readings.condensedFrom === undefined ? null : readings.readings.length,
      pointsTold: "all",
      crosslines: Math.min(pattern.crosslinesMm.length, new Set(readings.readings.map(({ xMm }) => xMm)).size),
      lines: pattern.lines,
      setups: readings.setups.length,
      repeatSdMm: repeatSdMm(readings),
      drift,
      hiddenRutMm: unreadPaths(readings, instrument).widest?.widestRutMm ?? null,
      enoughFor: purposes(looked),
    },
    verdict: answerTo(looked, task, (open) => nextLook(open, surface, "height", instrument)),
  };
}

function lookedAt(looked: Looked, surface: SurfaceSummary, { instrument, thickness }: Task) {
  return {
    instrument,
    surface,
    points: looked.points,
    deepest: null,
    wornPlaces: [],
    planing: null,
    thickness,
    maps: null,
    profiles: [],
    sections: [],
  };
}

function purposes({ hollows, radii }: Looked): readonly Purpose[] {
  return [...(hollows.length > 0 ? (["hollow"] as const) : []), ...(radii.length > 0 ? (["camber"] as const) : [])];
}

/** Where no surface is behind the look: nothing but what was looked at. */
function partOf(looked: Looked, { instrument }: Task): SurfaceSummary {
  const lengthMm = instrument.boardLengthMm.value;
  return {
    noiseMm: null,
    unwornShare: null,
    formMm: null,
    humps: [],
    camberRadiusMm: {
      nut: radiusNear(looked.radii, 0, lengthMm),
      middle: radiusNear(looked.radii, lengthMm / 2, lengthMm),
      end: radiusNear(looked.radii, lengthMm, lengthMm),
    },
    hollows: looked.hollows.flatMap((hollow) => underString(hollow, instrument.strings)),
    twistMm: null,
    assumed: looked.assumed,
  };
}

/** The radius looked at nearest to a place, at most a quarter of the length away. */
function radiusNear(radii: readonly LookedRadius[], xMm: number, lengthMm: number): Quantity | null {
  const away = (one: LookedRadius): number => Math.abs(one.xMm - xMm);
  const nearest = [...radii].sort((a, b) => away(a) - away(b)).at(0);
  return nearest !== undefined && away(nearest) <= lengthMm / 4 ? nearest.radiusMm : null;
}

function underString(hollow: LookedHollow, strings: readonly string[]): readonly HollowUnderString[] {
  const { stringIndex, hollowMm, measuredMm, withinMm, deepestAtMm } = hollow;
  if (stringIndex === null) return [];
  const state = stateOf(hollowMm.value, withinMm);
  return [{ string: strings[stringIndex]!, hollowMm, measuredMm, withinMm, state, deepestAtMm }];
}

function stateOf(hollowMm: number, [from, to]: readonly [number, number]): HollowState {
  if (hollowMm < 0) return "humped";
  if (hollowMm < from) return "shallow";
  return hollowMm > to ? "deep" : "within";
}
