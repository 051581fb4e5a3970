/**
 * Boards for the tests of the core's steps, made straight from a shape: a surface, readings on it, an unworn surface.
 *
 * In: an instrument and a shape (mm). Out: what a step takes. Nothing here is noisy unless the test adds noise itself.
 */
import type { Instrument } from "../../../server/core/board/instrument.ts";
import type { Gauge } from "../../../server/core/board/settings.ts";
import { stringYMm } from "../../../server/core/board/stringPaths.ts";
import type { Reading, Readings } from "../../../server/core/readings/readings.ts";
import { noForm } from "../../../server/core/surface/form.ts";
import { heightMm, parameterNames, type SurfaceShape, surfacePlan } from "../../../server/core/surface/idealSurface.ts";
import type { UnwornSurface } from "../../../server/core/surface/unwornSurface.ts";
import { comparedAt, type WearAtReadings } from "../../../server/core/wear/wearAtReadings.ts";
import { instrumentFrom } from "./board/boards.ts";

/** A violin of usual dimensions, R 42 all along, hollow 0.7 and 0.5, dressed from 0.2 mm of wear. */
export const violinSettings = {
  instrument: "violin",
  radius_nut: "42",
  radius_middle: "42",
  radius_end: "42",
  hollow_lowest: "0.7",
  hollow_highest: "0.5",
  hollow_deepest: "0.5",
  dress_at: "0.2",
} as const;

export const violin: Instrument = instrumentFrom(violinSettings);

export const pointGauge: Gauge = {
  unitMm: 1,
  placeUnitMm: 1,
  reads: "height",
  tipRadiusMm: 0,
  resolutionMm: 0,
  errorLimitMm: 0,
  calliperErrorMm: 0.05,
  tension: "on",
  pull: null,
};

export function shapeWith(changes: Partial<SurfaceShape> = {}): SurfaceShape {
  return {
    heightMm: 10,
    pitch: 0,
    crownNutMm: 0,
    crownEndMm: 0,
    radiusNutMm: 42,
    radiusMiddleMm: 42,
    radiusEndMm: 42,
    hollowLowestMm: 0.7,
    hollowHighestMm: 0.5,
    hollowDeepest: 0.5,
    facetSlopeNut: 0,
    facetSlopeEnd: 0,
    ...changes,
  };
}

/** A surface known without uncertainty but for the noise of its readings. */
export function knownSurface(shape: SurfaceShape, instrument: Instrument = violin, noiseMm = 0.005): UnwornSurface {
  return {
    plan: surfacePlan(instrument),
    shape,
    noiseMm,
    unwornShare: 1,
    form: noForm,
    covariance: new Float64Array(parameterNames.length ** 2),
    joined: null,
    assumed: [],
  };
}

/** Crosslines from `firstMm` to `lastMm`, evenly. */
export function evenly(firstMm: number, lastMm: number, count: number): readonly number[] {
  return Array.from({ length: count }, (_, i) => firstMm + ((lastMm - firstMm) * i) / (count - 1));
}

export type PlaceOnLine = { readonly xMm: number; readonly yMm: number };

/** Places on seven lines that fan out with the strings: under each of four strings and midway between, by crossline. */
export function sevenLines(instrument: Instrument, crosslinesMm: readonly number[]): readonly PlaceOnLine[] {
  const last = instrument.strings.length - 1;
  return crosslinesMm.flatMap((xMm) => {
    const lowest = stringYMm(instrument, 0, xMm);
    const highest = stringYMm(instrument, last, xMm);
    return evenly(lowest, highest, 7).map((yMm) => ({ xMm, yMm }));
  });
}

export function readingsAt(
  places: readonly PlaceOnLine[],
  gaugeMm: (place: PlaceOnLine, index: number) => number,
): Readings {
  return {
    stage: "checked",
    readings: places.map(
      (place, i): Reading => ({ row: i + 2, ...place, gaugeMm: gaugeMm(place, i), line: null, mark: null, setup: 0 }),
    ),
    setups: [""],
  };
}

/** Wear as measured at places: the unworn surface, and what is missing below it. */
export function wearAt(
  places: readonly PlaceOnLine[],
  surface: UnwornSurface,
  wearMm: (place: PlaceOnLine, index: number) => number,
): WearAtReadings {
  return comparedAt(
    places.map((place, i) => {
      const unwornMm = heightMm(surface.plan, surface.shape, place.xMm, place.yMm);
      const wear = wearMm(place, i);
      return {
        row: i + 2,
        givenXMm: place.xMm,
        givenYMm: place.yMm,
        ...place,
        heightMm: unwornMm - wear,
        line: null,
        mark: null,
        setup: 0,
        unwornMm,
        wearMm: wear,
      };
    }),
  );
}
