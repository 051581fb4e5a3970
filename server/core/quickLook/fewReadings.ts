/**
 * The unworn surface behind a few readings: fewer than a survey has, so part of the shape is taken to be as usual, openly.
 *
 * Three lines by three or five crosslines can tell height, pitch, hollows and radius; of the taper of the radius, of twist and of
 * where the hollow is deepest they can tell little. Those are held to what is usual by soft constraints whose spread is part of every
 * uncertainty. Which readings may be worn is weighed over all likely ways (waysOfWear.ts); the tip is compensated on the slopes of
 * the surface found, round by round.
 *
 * in: checked readings of one set-up, instrument, gauge -> out: surface, compensated readings, how likely each is worn. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Gauge } from "../board/settings.ts";
import type { CompensatedReadings } from "../compensation/compensatedReadings.ts";
import { compensateTip } from "../compensation/tip.ts";
import { aboutNothing, type NormalKnowledge, withEquation } from "../maths/normalKnowledge.ts";
import type { Readings } from "../readings/readings.ts";
import { noForm } from "../surface/form.ts";
import {
  heightMm,
  parameterNames,
  type SurfacePlan,
  type SurfaceShape,
  slopes,
  surfacePlan,
  writeHeightGradient,
} from "../surface/idealSurface.ts";
import { whyNoBoard } from "../surface/isBoard.ts";
import { combinedOn, type Respect, type SoftConstraint, softConstraints } from "../surface/softConstraints.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";
import { setShape } from "./setShape.ts";
import { waysOfWear } from "./waysOfWear.ts";

export type FewFitted =
  | {
      readonly outcome: "fitted";
      readonly surface: UnwornSurface;
      readonly compensated: CompensatedReadings;
      /** In the readings' order: how likely each is not on the surface, 0 to 1. */
      readonly worn: Float64Array;
    }
  | { readonly outcome: "not-fitted"; readonly why: string };

const mostRounds = 12;
/** First rounds that only come near, as if nothing were worn: the surface bends hardly at all over what is left then. */
const roundsToNear = 2;
const usualNoiseMm = 0.012;
/** The surface stands still when no parameter's step is more than this share of its own uncertainty. */
const stillShare = 0.01;

export function fitFewReadings(readings: Readings, instrument: Instrument, gauge: Gauge): FewFitted {
  const plan = surfacePlan(instrument);
  const assumed = takenAsUsual(instrument, plan);
  const constraints = softConstraints(instrument, plan, new Set(assumed));
  const floorMm = gauge.resolutionMm / Math.sqrt(12);
  let shape = startingShape(readings, instrument);
  for (let round = 0; ; round++) {
    const at = shape;
    const compensated = compensateTip(readings, gauge.tipRadiusMm, (xMm, yMm) => slopes(plan, at, xMm, yMm));
    const rows = compensated.readings.map(({ xMm, yMm }) => gradientAt(plan, at, xMm, yMm));
    const residualsMm = Float64Array.from(
      compensated.readings,
      ({ xMm, yMm, heightMm: readMm }) => readMm - heightMm(plan, at, xMm, yMm),
    );
    const before = knownBefore(plan, at, constraints, instrument);
    if (round < roundsToNear) {
      const near = rows.reduce((known, row, i) => withEquation(known, row, residualsMm[i]!, usualNoiseMm ** 2), before);
      shape = moved(at, near.mean);
      continue;
    }
    const { knowledge, noiseMm, worn } = waysOfWear({ rows, residualsMm }, before, floorMm);
    shape = moved(at, knowledge.mean);
    if (round < mostRounds && !standsStill(knowledge)) continue;

    const unwornShare = worn.filter((p) => p < 0.5).length / worn.length;
    const why = whyNoBoard(plan, shape, unwornShare, noiseMm) ?? whyUntold(shape, knowledge);
    if (why !== null) return { outcome: "not-fitted", why };
    const { covariance } = knowledge;
    const surface = { plan, shape, form: noForm, noiseMm, unwornShare, covariance, joined: null, assumed };
    return { outcome: "fitted", surface, compensated, worn };
  }
}

/** Radius and crown, as a share of the radius, and hollows, mm: known no better than this (standard uncertainty), they are not known. */
const mostUncertain = { share: 0.2, hollowMm: 0.4 } as const;

function whyUntold(shape: SurfaceShape, { covariance }: NormalKnowledge): string | null {
  const size = parameterNames.length;
  const isTold = parameterNames.every((name, i) => {
    const spread = Math.sqrt(covariance[i * size + i]!);
    if (name.startsWith("radius")) return spread <= mostUncertain.share * shape[name];
    if (name.startsWith("crown")) return spread <= mostUncertain.share * shape.radiusMiddleMm;
    return name === "hollowLowestMm" || name === "hollowHighestMm" ? spread <= mostUncertain.hollowMm : true;
  });
  return isTold ? null : "they lie so that the arc or the hollow can't be told from them.";
}

/** A workshop that asks for a taper expects one: then the readings alone must tell it. */
function takenAsUsual({ radiusNutMm, radiusMiddleMm, radiusEndMm }: Instrument, plan: SurfacePlan): readonly Respect[] {
  const isCylinder = radiusNutMm.value === radiusEndMm.value && radiusMiddleMm.value === radiusEndMm.value;
  return [
    ...(isCylinder ? (["swell", "taper"] as const) : []),
    "twist",
    ...(plan.ridge === null ? [] : (["facet"] as const)),
  ];
}

/** What is known of the change from this shape before a reading is taken. Height and pitch may be anything a rail can do. */
function knownBefore(
  plan: SurfacePlan,
  shape: SurfaceShape,
  constraints: readonly SoftConstraint[],
  instrument: Instrument,
): NormalKnowledge {
  const widthMm = instrument.widthEndMm.value;
  const spreads: Record<keyof SurfaceShape, number> = {
    heightMm: 200,
    pitch: 0.3,
    crownNutMm: widthMm,
    crownEndMm: widthMm,
    radiusNutMm: 4 * widthMm,
    radiusMiddleMm: 4 * widthMm,
    radiusEndMm: 4 * widthMm,
    hollowLowestMm: 10,
    hollowHighestMm: 10,
    hollowDeepest: 0.3,
    facetSlopeNut: plan.ridge === null ? 0 : 1,
    facetSlopeEnd: plan.ridge === null ? 0 : 1,
  };
  return constraints.reduce(
    (known, { combination, setting, spread }) => {
      const row = Float64Array.from(parameterNames, (name) => combination[name] ?? 0);
      return withEquation(known, row, setting - combinedOn(shape, combination), spread ** 2);
    },
    aboutNothing(parameterNames.map((name) => spreads[name])),
  );
}

function gradientAt(plan: SurfacePlan, shape: SurfaceShape, xMm: number, yMm: number): Float64Array {
  const gradient = new Float64Array(parameterNames.length);
  writeHeightGradient(plan, shape, xMm, yMm, gradient);
  return gradient;
}

/** The shape after a step; radii and u0 are kept where the formulas hold. */
function moved(shape: SurfaceShape, step: Float64Array): SurfaceShape {
  const raw = Object.fromEntries(parameterNames.map((name, i) => [name, shape[name] + step[i]!])) as SurfaceShape;
  const radius = (before: number, after: number): number => Math.min(Math.max(after, before * 0.6), before * 1.7);
  return {
    ...raw,
    radiusNutMm: radius(shape.radiusNutMm, raw.radiusNutMm),
    radiusMiddleMm: radius(shape.radiusMiddleMm, raw.radiusMiddleMm),
    radiusEndMm: radius(shape.radiusEndMm, raw.radiusEndMm),
    hollowDeepest: Math.min(Math.max(raw.hollowDeepest, 0.3), 0.7),
  };
}

function standsStill({ mean, covariance }: NormalKnowledge): boolean {
  const size = mean.length;
  return mean.every((step, i) => Math.abs(step) <= stillShare * Math.sqrt(covariance[i * size + i]!) + 1e-12);
}

function startingShape(readings: Readings, instrument: Instrument): SurfaceShape {
  const sum = readings.readings.reduce((total, reading) => total + reading.gaugeMm, 0);
  return { ...setShape(instrument), heightMm: sum / readings.readings.length };
}
