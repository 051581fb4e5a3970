/**
 * The shape that the workshop has set, as a surface: what a quick look holds its hollows and radii against.
 *
 * The set radii, no twist, and such coefficients that a straightedge laid under the lowest and the highest string shows the set
 * hollows. in: instrument -> out: shape, and what a straightedge or a template should show anywhere on it. Lengths in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import { stringYMm } from "../board/stringPaths.ts";
import { radiusAtMm, type SurfaceShape, surfacePlan } from "../surface/idealSurface.ts";
import { hollowOfShape } from "../surface/straightedge.ts";
import type { Range } from "./looked.ts";

/** The hollow grows by 1 with its coefficient, the camber's share of it hardly changes: a few rounds settle both strings. */
const rounds = 6;

export function setShape(instrument: Instrument): SurfaceShape {
  const plan = surfacePlan(instrument);
  const { radiusNutMm, radiusMiddleMm, radiusEndMm, hollowLowestMm, hollowHighestMm, hollowDeepest } = instrument;
  const { facet } = instrument;
  let shape: SurfaceShape = {
    heightMm: 0,
    pitch: 0,
    crownNutMm: 0,
    crownEndMm: 0,
    radiusNutMm: radiusNutMm.value,
    radiusMiddleMm: radiusMiddleMm.value,
    radiusEndMm: radiusEndMm.value,
    hollowLowestMm: hollowLowestMm.value,
    hollowHighestMm: hollowHighestMm.value,
    hollowDeepest: hollowDeepest.value,
    facetSlopeNut: facet ? (facet.slopeNut?.value ?? -facet.ridgeNutMm.value / radiusNutMm.value) : 0,
    facetSlopeEnd: facet ? (facet.slopeEnd?.value ?? -facet.ridgeEndMm.value / radiusEndMm.value) : 0,
  };
  const shown = (index: number): number =>
    hollowOfShape(plan, shape, (xMm) => stringYMm(instrument, index, xMm)).hollowMm;
  for (let round = 0; round < rounds; round++) {
    const lowestOff = hollowLowestMm.value - shown(0);
    const highestOff = hollowHighestMm.value - shown(instrument.strings.length - 1);
    shape = {
      ...shape,
      hollowLowestMm: shape.hollowLowestMm + lowestOff,
      hollowHighestMm: shape.hollowHighestMm + highestOff,
    };
  }
  return shape;
}

/** What a radius may be at a crossline and still be right. `set` is the shape that the workshop has set. */
export function radiusRange(instrument: Instrument, set: SurfaceShape, xMm: number): Range {
  const shouldBe = radiusAtMm(set, xMm / instrument.boardLengthMm.value);
  const tolerance = instrument.radiusToleranceMm.value;
  return [shouldBe - tolerance, shouldBe + tolerance];
}
