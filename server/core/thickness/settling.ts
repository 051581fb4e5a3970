/**
 * How much more reading brings a need clear of its limit, and what the next reading alone would do.
 *
 * A place is read again: its noise falls with the root of the repeats, the rest of its uncertainty (the surface there, the gauge's
 * limit and step) stays. Hollow and radius follow from the surface as a whole: further readings are laid, one after the other, where
 * each narrows them most. What is measured again also moves, so that an uncertainty as great as the distance to the limit would settle
 * no more than every second case; at seven tenths of it it is about three in four (a normal law, by hand). Lengths in mm.
 */
import { stringYMm } from "../board/stringPaths.ts";
import type { Form } from "../surface/form.ts";
import type { SurfaceShape } from "../surface/idealSurface.ts";
import { type Narrowing, readingsThatNarrow } from "../surface/oneMoreReading.ts";
import { hollowOfShape } from "../surface/straightedge.ts";
import { varianceOf } from "../surface/surfaceUncertainty.ts";
import type { UnwornSurface } from "../surface/unwornSurface.ts";
import { coverageFactor } from "../units.ts";
import type { FoundPlace } from "../wear/wornPlaces.ts";
import type { Findings } from "./findings.ts";
import type { Need } from "./needs.ts";
import { type PlaceOnLine, placesToRead } from "./placesToRead.ts";

/** A place is not read more often than this for one question, and no more readings than these are laid for a hollow or a radius. */
export const mostRepeats = 10;
export const mostFurtherReadings = 20;

/** The expanded uncertainty that settles a need in most cases, mm, from the distance to its limit. */
export function settlingUMm(overMm: number): number {
  return 0.7 * Math.abs(overMm);
}

/** Expanded uncertainty after one, two, three … further readings of the deepest place, mm. */
export function uAfterRepeats({ shape }: Findings, place: FoundPlace): readonly number[] {
  const taken = repeatsOf(place);
  const noiseVariance = shape.noiseMm ** 2;
  const rest = Math.max(0, (place.u / coverageFactor) ** 2 - noiseVariance / taken);
  return Array.from({ length: mostRepeats }, (_, more) => expanded(noiseVariance / (taken + more + 1) + rest));
}

/** How often the deepest place was read already. */
function repeatsOf({ deepestReading, members }: FoundPlace): number {
  const { givenXMm, givenYMm } = deepestReading;
  return members.filter((reading) => reading.givenXMm === givenXMm && reading.givenYMm === givenYMm).length;
}

export type FurtherReading = { readonly place: PlaceOnLine; readonly u: number };

/** The further readings that narrow a hollow or a radius most, each with the expanded uncertainty that is left after it. */
export function furtherReadings(findings: Findings, need: Need, count: number): readonly FurtherReading[] {
  const quantity = quantityOf(findings, need);
  const { surface, instrument, wornPlaces } = findings;
  if (quantity === null) return [];
  const now = ((need.reason.u ?? 0) / coverageFactor) ** 2;
  const gaugeVariance = Math.max(0, now - varianceOf(surface, quantity));
  const taken: readonly Narrowing<PlaceOnLine>[] = readingsThatNarrow(
    surface,
    quantity,
    placesToRead(instrument, wornPlaces),
    count,
  );
  return taken.map(({ place, variance }) => ({ place, u: expanded(variance + gaugeVariance) }));
}

type QuantityOfSurface = (shape: SurfaceShape, form: Form) => number;

function quantityOf({ surface, instrument }: Findings, { subject }: Need): QuantityOfSurface | null {
  switch (subject.of) {
    case "place":
      return null;
    case "hollow":
      return hollowUnder(surface, (xMm) => stringYMm(instrument, subject.stringIndex, xMm));
    case "camber":
      return { nut: radiusAtNut, middle: radiusAtMiddle, end: radiusAtEnd }[subject.at];
  }
}

function hollowUnder({ plan }: UnwornSurface, path: (xMm: number) => number): QuantityOfSurface {
  return (shape, form) => hollowOfShape(plan, shape, path, form).hollowMm;
}

const radiusAtNut: QuantityOfSurface = (shape) => shape.radiusNutMm;
const radiusAtMiddle: QuantityOfSurface = (shape) => shape.radiusMiddleMm;
const radiusAtEnd: QuantityOfSurface = (shape) => shape.radiusEndMm;

function expanded(variance: number): number {
  return coverageFactor * Math.sqrt(variance);
}
