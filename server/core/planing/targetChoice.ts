/**
 * Which targets the workshop would call right: where the placement starts and how far it may move.
 *
 * The workshop's target has the set radii and hollows, each free within its band; `own` renews the board's own shape.
 * Height is free; pitch may tilt the strings' end by the projection bound; the crown may shift by its bound. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import { halfWidthMm } from "../board/outline.ts";
import type { Job } from "../board/settings.ts";
import { stringYMm } from "../board/stringPaths.ts";
import { hollowOfShape } from "../surface/straightedge.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";
import {
  ownFrame,
  type Placement,
  type PlacementBounds,
  type TargetFrame,
  targetShape,
  withinBounds,
  workshopFrame,
} from "./targetSurface.ts";

export type TargetChoice = { readonly frame: TargetFrame; readonly start: Placement; readonly bounds: PlacementBounds };

/** No board is planed, and no gauge zero is off, by as much as this, mm. */
const farMm = 50;

export function targetChoice(surface: UnwornSurface, instrument: Instrument, job: Job): TargetChoice {
  const radiusBandMm = job.aim === "own" ? 0 : instrument.radiusBandMm.value;
  const hollowBandMm = job.aim === "own" ? 0 : instrument.hollowBandMm.value;
  const frame = job.aim === "own" ? ownFrame(surface) : workshopFrame(surface, instrument);
  const like = job.aim === "own" ? ownShape(surface, instrument) : workshopShape(instrument);
  const pitch = instrument.projectionBoundMm.value / instrument.stringLengthMm.value;
  const lengthMm = instrument.boardLengthMm.value;
  const about = (value: number, band: number): readonly [number, number] => [value - band, value + band];
  const bounds: PlacementBounds = {
    heightMm: [-farMm, farMm],
    pitch: [-pitch, pitch],
    crownNutMm: crownAside(instrument, 0),
    crownEndMm: crownAside(instrument, lengthMm),
    radiusNutMm: anArc(about(like.radiusNutMm, radiusBandMm), instrument, 0),
    radiusMiddleMm: anArc(about(like.radiusMiddleMm, radiusBandMm), instrument, lengthMm / 2),
    radiusEndMm: anArc(about(like.radiusEndMm, radiusBandMm), instrument, lengthMm),
    hollowLowestMm: neverHumped(about(like.hollowLowestMm, hollowBandMm)),
    hollowHighestMm: neverHumped(about(like.hollowHighestMm, hollowBandMm)),
  };
  return {
    frame,
    bounds,
    start: withinBounds({ heightMm: 0, pitch: 0, crownNutMm: 0, crownEndMm: 0, ...like }, bounds),
  };
}

/** The crown stays within this part of the half-width, whatever the bound: further aside it is no fingerboard. */
const mostCrownShare = 0.2;

/**
 * A radius never so small that its arc, crown shifted as far as may be, would not reach over the board's width. It depends on the
 * board alone: a wider bound elsewhere must never take a radius away.
 */
function anArc([from, to]: readonly [number, number], instrument: Instrument, xMm: number): readonly [number, number] {
  const leastMm = 1.1 * (1 + mostCrownShare) * halfWidthMm(instrument, xMm);
  return [Math.max(leastMm, from), Math.max(leastMm, to)];
}

function crownAside(instrument: Instrument, xMm: number): readonly [number, number] {
  const mm = Math.min(instrument.crownBoundMm.value, mostCrownShare * halfWidthMm(instrument, xMm));
  return [-mm, mm];
}

/** A target may be flat along a string, never humped. */
function neverHumped([from, to]: readonly [number, number]): readonly [number, number] {
  return [Math.max(0, from), Math.max(0, to)];
}

/** The figures that a plan hangs on; any other may differ without changing it. */
const figuresOfPlan = [
  "radiusNutMm",
  "radiusMiddleMm",
  "radiusEndMm",
  "radiusBandMm",
  "hollowLowestMm",
  "hollowHighestMm",
  "hollowBandMm",
  "hollowDeepest",
  "projectionBoundMm",
  "crownBoundMm",
  "allowanceMm",
  "finishAllowanceMm",
  "edgeLimitMm",
  "centreLimitMm",
] as const;

type Workshop = { readonly instrument: Instrument; readonly job: Job };

/** Whether the same plan answers both. */
export function isSamePlan(one: Workshop, other: Workshop): boolean {
  return (
    one.job.aim === other.job.aim &&
    one.job.spare === other.job.spare &&
    one.job.newBoard === other.job.newBoard &&
    figuresOfPlan.every((name) => one.instrument[name].value === other.instrument[name].value)
  );
}

/** What a straightedge should show under each string, lowest first: on the target as the workshop sets it. */
export function targetHollowsMm(choice: TargetChoice, instrument: Instrument): readonly number[] {
  const shape = targetShape(choice.frame, choice.start);
  return instrument.strings.map(
    (_, index) => hollowOfShape(choice.frame.unworn.plan, shape, (xMm) => stringYMm(instrument, index, xMm)).hollowMm,
  );
}

type Shape = Pick<Placement, "radiusNutMm" | "radiusMiddleMm" | "radiusEndMm" | "hollowLowestMm" | "hollowHighestMm">;

function workshopShape(instrument: Instrument): Shape {
  return {
    radiusNutMm: instrument.radiusNutMm.value,
    radiusMiddleMm: instrument.radiusMiddleMm.value,
    radiusEndMm: instrument.radiusEndMm.value,
    hollowLowestMm: instrument.hollowLowestMm.value,
    hollowHighestMm: instrument.hollowHighestMm.value,
  };
}

function ownShape(surface: UnwornSurface, instrument: Instrument): Shape {
  const { radiusNutMm, radiusMiddleMm, radiusEndMm } = surface.shape;
  const shown = (index: number): number =>
    hollowOfShape(surface.plan, surface.shape, (xMm) => stringYMm(instrument, index, xMm)).hollowMm;
  return {
    radiusNutMm,
    radiusMiddleMm,
    radiusEndMm,
    hollowLowestMm: shown(0),
    hollowHighestMm: shown(instrument.strings.length - 1),
  };
}
