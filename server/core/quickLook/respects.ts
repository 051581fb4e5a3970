/**
 * Every respect in which a quick look has seen a board, held against its limit: the reasons of its answer.
 *
 * A respect is out of its range for certain from its expanded uncertainty on, and inside it for certain as far inside; in between it
 * is open (conformity.ts). Wear at one reading is told only where it stands out; deeper than 1 mm it is more likely a slip. Lengths
 * in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Job } from "../board/settings.ts";
import { nearestString } from "../board/stringPaths.ts";
import type { Reason } from "../examination.ts";
import { type Certainty, certaintyOf, probabilityOutside, probabilityOver } from "../thickness/conformity.ts";
import {
  type Looked,
  type LookedHollow,
  type LookedRadius,
  type LookedWear,
  outsideMm,
  type Range,
  type TemplateSide,
} from "./looked.ts";

export type Respect = {
  readonly certainty: Certainty;
  readonly reason: Reason;
  /** What was looked at; null where another reading would not tell more. */
  readonly of: LookedHollow | LookedRadius | null;
};

export function respectsOf(looked: Looked, instrument: Instrument, job: Job): readonly Respect[] {
  const isJudged = job.aim === "workshop";
  return [
    ...looked.hollows.map((hollow) => hollowRespect(hollow, instrument, isJudged)),
    ...looked.radii.map((radius) => radiusRespect(radius, instrument, isJudged)),
    ...looked.sides.map((side) => sideRespect(side, instrument, isJudged)),
    ...wearRespects(looked.wear, instrument),
  ];
}

function hollowRespect(hollow: LookedHollow, instrument: Instrument, isJudged: boolean): Respect {
  const { where, hollowMm, withinMm } = hollow;
  const [from, to] = withinMm;
  const word = hollowMm.value < 0 ? "a hump instead" : inRange(hollowMm.value, withinMm, "too little", "too much");
  return {
    certainty: isJudged ? certaintyOf(outsideMm(hollowMm.value, withinMm), hollowMm.u) : "none",
    of: hollow,
    reason: {
      code: "hollow",
      says: isJudged ? `Hollow ${where}: ${word}.` : `Hollow ${where}.`,
      valueMm: hollowMm.value,
      u: hollowMm.u,
      limitMm: isJudged ? (hollowMm.value > (from + to) / 2 ? to : from) : null,
      origin: isJudged ? instrument.hollowToleranceMm.origin : null,
      probability: isJudged ? probabilityOutside(hollowMm, withinMm) : null,
    },
  };
}

function radiusRespect(radius: LookedRadius, instrument: Instrument, isJudged: boolean): Respect {
  const { xMm, radiusMm, withinMm } = radius;
  const [from, to] = withinMm;
  const word = inRange(radiusMm.value, withinMm, "too round", "too flat");
  const where = `Camber radius ${Math.round(xMm)} mm from the nut`;
  return {
    certainty: isJudged ? certaintyOf(outsideMm(radiusMm.value, withinMm), radiusMm.u) : "none",
    of: radius,
    reason: {
      code: "camber",
      says: isJudged ? `${where}: ${word}.` : `${where}.`,
      valueMm: radiusMm.value,
      u: radiusMm.u,
      limitMm: isJudged ? (radiusMm.value > (from + to) / 2 ? to : from) : null,
      origin: isJudged ? instrument.radiusToleranceMm.origin : null,
      probability: isJudged ? probabilityOutside(radiusMm, withinMm) : null,
    },
  };
}

function inRange(value: number, [from, to]: Range, below: string, above: string): string {
  if (value < from) return below;
  return value > to ? above : "in its range";
}

/** Rounder than a template that is as round as the board may be, or flatter than one as flat: out of its range whatever it is. */
function sideRespect(told: TemplateSide, instrument: Instrument, isJudged: boolean): Respect {
  const { xMm, templateRadiusMm, side, withinMm } = told;
  const isOut = side === "rounder" ? templateRadiusMm <= withinMm[0] : templateRadiusMm >= withinMm[1];
  const light = side === "rounder" ? "light at its edges" : "light in its middle";
  return {
    certainty: isOut && isJudged ? "certain" : isJudged ? "near" : "none",
    of: null,
    reason: {
      code: "template",
      says: `${Math.round(xMm)} mm from the nut the board is ${side} than the template of radius ${templateRadiusMm} mm (${light}): three gaps across would tell by how much.`,
      valueMm: null,
      u: null,
      limitMm: isJudged ? (side === "rounder" ? withinMm[0] : withinMm[1]) : null,
      origin: isJudged ? instrument.radiusToleranceMm.origin : null,
      probability: null,
    },
  };
}

/** Wear deeper than this, mm, at one place alone is more likely a slip: 1 mm is extreme (from memory). */
const slipMm = 1;

/** What stands out, and what could be as deep as a dressing asks for without standing out: the deepest of each. */
function wearRespects(wear: readonly LookedWear[], instrument: Instrument): readonly Respect[] {
  const dressAtMm = instrument.dressAtMm.value;
  const low = wear.find(({ stands, wearMm }) => stands && wearMm.value > 0);
  const high = wear.findLast(({ stands, wearMm }) => stands && wearMm.value < 0);
  const mayHide = wear.some(({ wearMm }) => wearMm.value + wearMm.u > dressAtMm);
  return [
    ...(low === undefined ? [] : [lowRespect(low, instrument)]),
    ...(high === undefined ? [] : [highRespect(high, instrument)]),
    ...(low === undefined && mayHide ? [hiddenRespect(instrument)] : []),
  ];
}

function lowRespect(low: LookedWear, instrument: Instrument): Respect {
  const { wearMm } = low;
  const overMm = wearMm.value - instrument.dressAtMm.value;
  const isSlip = wearMm.value > slipMm;
  const certainty = certaintyOf(overMm, wearMm.u);
  return {
    certainty: isSlip && certainty === "certain" ? "possible" : certainty === "none" ? "near" : certainty,
    of: null,
    reason: {
      code: "wear",
      says: `${placeInWords(low, instrument)} the board lies below the curve of its neighbours${isSlip ? " (so far that it may be a slip)" : ""}: worn there, it seems. A dressing is due from ${instrument.dressAtMm.value} mm.`,
      valueMm: wearMm.value,
      u: wearMm.u,
      limitMm: instrument.dressAtMm.value,
      origin: instrument.dressAtMm.origin,
      probability: isSlip ? null : probabilityOver(wearMm, instrument.dressAtMm.value),
    },
  };
}

function highRespect(high: LookedWear, instrument: Instrument): Respect {
  return {
    certainty: "near",
    of: null,
    reason: {
      code: "hump",
      says: `${placeInWords(high, instrument)} the board stands above the curve of its neighbours: a hump, or a slip.`,
      valueMm: -high.wearMm.value,
      u: high.wearMm.u,
      limitMm: null,
      origin: null,
      probability: null,
    },
  };
}

function hiddenRespect(instrument: Instrument): Respect {
  const { value, origin } = instrument.dressAtMm;
  return {
    certainty: "near",
    of: null,
    reason: {
      code: "wear-not-told",
      says: `These readings can't tell wear of ${value} mm, from which a dressing is due, from the board's own shape.`,
      valueMm: null,
      u: null,
      limitMm: value,
      origin,
      probability: null,
    },
  };
}

function placeInWords(place: LookedWear, instrument: Instrument): string {
  const string = instrument.strings[nearestString(instrument, place).index]!;
  return `At the ${string} string, ${Math.round(place.xMm)} mm from the nut,`;
}
