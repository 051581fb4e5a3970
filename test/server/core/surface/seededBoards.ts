/**
 * Seeded violins for the tests of the fit: rolled, pitched and a little off the workshop's shape, read on eleven crosslines by seven
 * lines with normal noise, worn as the test says. Lengths in mm.
 */
import { type SeededRandom, seededRandom } from "../../../../server/core/maths/seededRandom.ts";
import type { Readings } from "../../../../server/core/readings/readings.ts";
import { type FitReadings, fitReadings } from "../../../../server/core/surface/fitReadings.ts";
import { heightMm, type SurfaceShape, surfacePlan } from "../../../../server/core/surface/idealSurface.ts";
import {
  ordinaryFit,
  type Rivals,
  rivalFits,
  type SurfaceProblem,
} from "../../../../server/core/surface/mixtureFit.ts";
import { patternSpacing } from "../../../../server/core/surface/patternSpacing.ts";
import { type SoftConstraint, softConstraints } from "../../../../server/core/surface/softConstraints.ts";
import { fitUnwornSurface, type UnwornSurface } from "../../../../server/core/surface/unwornSurface.ts";
import { evenly, type PlaceOnLine, pointGauge, readingsAt, sevenLines, shapeWith, violin } from "../plainBoards.ts";

export const noiseMm = 0.01;
export const plan = surfacePlan(violin);
export const lines = 7;
/** Seventy-seven places, crossline by crossline. */
export const places = sevenLines(violin, evenly(5, 265, 11));

export type Wear = (place: PlaceOnLine, index: number) => number;
export const unworn: Wear = () => 0;

/** The twist is of the size that boards have: 0.2 mm of crown from end to end, one standard deviation. */
export function seededShape(random: SeededRandom): SurfaceShape {
  const crownMm = 0.5 * random.normal();
  return shapeWith({
    crownNutMm: crownMm,
    crownEndMm: crownMm + 0.2 * random.normal(),
    pitch: 0.002 * random.normal(),
    radiusNutMm: 42 + random.normal(),
    radiusEndMm: 42 + random.normal(),
    hollowLowestMm: 0.7 + 0.05 * random.normal(),
  });
}

export type SeededBoard = { readonly shape: SurfaceShape; readonly readings: Readings };

export function seededBoard(seed: number, wearMm: Wear = unworn): SeededBoard {
  const random = seededRandom(seed);
  const shape = seededShape(random);
  const readings = readingsAt(
    places,
    (place, i) => heightMm(plan, shape, place.xMm, place.yMm) - wearMm(place, i) + noiseMm * random.normal(),
  );
  return { shape, readings };
}

export function surfaceOf(readings: Readings, instrument = violin): UnwornSurface {
  const answer = fitUnwornSurface(readings, instrument, pointGauge);
  if (answer.outcome === "not-fitted") throw new Error(answer.why);
  return answer.surface;
}

/** A raised cosine of this depth, its rim an ellipse with these half axes. */
export function pit(
  at: PlaceOnLine,
  depthMm: number,
  halfLengthMm: number,
  halfWidthMm: number,
): (place: PlaceOnLine) => number {
  return ({ xMm, yMm }) => {
    const r = Math.hypot((xMm - at.xMm) / halfLengthMm, (yMm - at.yMm) / halfWidthMm);
    return r >= 1 ? 0 : (depthMm * (1 + Math.cos(Math.PI * r))) / 2;
  };
}

/** What a fit of these violins is about, as the tool puts it, or with other things known beforehand. */
export function problemWith(
  constraints: readonly SoftConstraint[] = softConstraints(violin, plan, new Set()),
): SurfaceProblem {
  return {
    plan,
    known: { constraints, formSpreadMm: 1 },
    meanWidthMm: (violin.widthNutMm.value + violin.widthEndMm.value) / 2,
    spacing: (count) => patternSpacing(violin, count),
    floorMm: 1e-6,
  };
}

export function takenFrom(readings: Readings): FitReadings {
  return fitReadings(readings, 0, () => ({ alongX: 0, alongY: 0 }));
}

/** Both fits, from a plain shape at the readings' own height. */
export function rivalsOf(readings: FitReadings, problem = problemWith(), start = shapeWith()): Rivals {
  const ordinary = ordinaryFit(start, readings, problem);
  const rivals = ordinary && rivalFits(ordinary, readings, problem);
  if (rivals === null) throw new Error("these readings don't determine the surface");
  return rivals;
}
