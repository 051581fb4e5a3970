/**
 * The board's shape in the trade's terms: hollow under each string, camber at nut, middle and end, twist.
 *
 * All are read off the unworn surface; the readings' own straightedge stands beside the hollow. Uncertainties are
 * propagated from the surface's covariance (JCGM 100:2008, 5.1), with the gauge's limit added once per difference
 * (a/√3): to a hollow, as a gauge that errs by ±a can do so between the middle and the ends; to a radius by way of the height of
 * the arc over the board's width, s = w²/8R, so that dR = 8R²/w² ds. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import { halfWidthMm } from "../board/outline.ts";
import type { Gauge } from "../board/settings.ts";
import { stringYMm } from "../board/stringPaths.ts";
import type { CompensatedReadings } from "../compensation/compensatedReadings.ts";
import type { HollowState, HollowUnderString, SurveyedSurface } from "../examination.ts";
import { coverageFactor, type Quantity } from "../units.ts";
import { type Form, formMm } from "./form.ts";
import { humpsOf } from "./humps.ts";
import { type SurfaceShape, twistMm } from "./idealSurface.ts";
import { assumedInWords } from "./softConstraints.ts";
import { hollowOfShape, layStraightedge } from "./straightedge.ts";
import { varianceOf } from "./surfaceUncertainty.ts";
import type { UnwornSurface } from "./unwornSurface.ts";

/**
 * `targetHollowsMm`: what a straightedge should show under each string, lowest first; `hollowUMm`: what the corrections of the
 * readings leave uncertain in a hollow, standard.
 */
export function shapeOfBoard(
  surface: UnwornSurface,
  compensated: CompensatedReadings,
  instrument: Instrument,
  gauge: Gauge,
  targetHollowsMm: readonly number[],
  hollowUMm: number,
): SurveyedSurface {
  const quantity = (of: (shape: SurfaceShape, form: Form) => number, otherVariance = 0): Quantity => ({
    value: of(surface.shape, surface.form),
    u: coverageFactor * Math.sqrt(varianceOf(surface, of) + otherVariance),
  });
  const gaugeVariance = gauge.errorLimitMm ** 2 / 3;
  const hollowVariance = gaugeVariance + hollowUMm ** 2;
  const radius = (of: (shape: SurfaceShape) => number, xMm: number): Quantity => {
    const byHeight = (8 * of(surface.shape) ** 2) / (2 * halfWidthMm(instrument, xMm)) ** 2;
    return quantity(of, byHeight ** 2 * gaugeVariance);
  };
  const toleranceMm = instrument.hollowToleranceMm.value;
  return {
    noiseMm: surface.noiseMm,
    unwornShare: surface.unwornShare,
    formMm: formOf(surface, instrument),
    humps: humpsOf(surface, instrument),
    camberRadiusMm: {
      nut: radius((shape) => shape.radiusNutMm, 0),
      middle: radius((shape) => shape.radiusMiddleMm, surface.plan.lengthMm / 2),
      end: radius((shape) => shape.radiusEndMm, surface.plan.lengthMm),
    },
    hollows: instrument.strings.map((string, index): HollowUnderString => {
      const path = (xMm: number) => stringYMm(instrument, index, xMm);
      const hollowMm = quantity(
        (shape, form) => hollowOfShape(surface.plan, shape, path, form).hollowMm,
        hollowVariance,
      );
      const withinMm = [targetHollowsMm[index] - toleranceMm, targetHollowsMm[index] + toleranceMm] as const;
      return {
        string,
        hollowMm,
        measuredMm: measuredHollowMm(compensated, instrument, index),
        withinMm,
        state: stateOf(hollowMm.value, withinMm),
        deepestAtMm: hollowOfShape(surface.plan, surface.shape, path, surface.form).atMm,
      };
    }),
    twistMm: quantity((shape) => twistMm(shape, instrument.widthEndMm.value)),
    assumed: surface.assumed.map((respect) => assumedInWords[respect]),
  };
}

/**
 * What a straightedge shows along the centreline. There it meets no camber, as it does under a string that runs outwards: a board
 * that is straight from end to end shows nothing here and a hump under its outer strings.
 */
export function hollowAlongCentre(surface: UnwornSurface, gauge: Gauge, hollowUMm: number): Quantity {
  const of = (shape: SurfaceShape, form: Form): number => hollowOfShape(surface.plan, shape, () => 0, form).hollowMm;
  return {
    value: of(surface.shape, surface.form),
    u: coverageFactor * Math.sqrt(varianceOf(surface, of) + gauge.errorLimitMm ** 2 / 3 + hollowUMm ** 2),
  };
}

/** Farthest that the form leads the board off its ideal shape under any string, mm: looked for at 49 places along. */
function formOf({ plan, form }: UnwornSurface, instrument: Instrument): number {
  if (form.length === 0) return 0;
  const departures = Array.from({ length: 49 }, (_, i) => (plan.lengthMm * i) / 48).flatMap((xMm) =>
    instrument.strings.map((_, index) => Math.abs(formMm(plan, form, xMm, stringYMm(instrument, index, xMm)))),
  );
  return Math.max(...departures);
}

function stateOf(hollowMm: number, [from, to]: readonly [number, number]): HollowState {
  if (hollowMm < 0) return "humped";
  if (hollowMm < from) return "shallow";
  return hollowMm > to ? "deep" : "within";
}

/** A reading counts as on the string within this distance of its path, mm. */
const onPathMm = 1;
const fewestOnPath = 5;

/** What a straightedge laid on the readings themselves shows along a string; null where fewer than five lie on it. */
function measuredHollowMm(compensated: CompensatedReadings, instrument: Instrument, index: number): number | null {
  const heightsAtX = new Map<number, number[]>();
  for (const { givenXMm, givenYMm, heightMm } of compensated.readings) {
    if (Math.abs(givenYMm - stringYMm(instrument, index, givenXMm)) > onPathMm) continue;
    heightsAtX.set(givenXMm, [...(heightsAtX.get(givenXMm) ?? []), heightMm]);
  }
  if (heightsAtX.size < fewestOnPath) return null;
  const xs = [...heightsAtX.keys()].sort((a, b) => a - b);
  const means = xs.map((x) => {
    const heights = heightsAtX.get(x) ?? [];
    return heights.reduce((sum, z) => sum + z, 0) / heights.length;
  });
  return layStraightedge(xs, means).hollowMm;
}
