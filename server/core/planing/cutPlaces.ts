/**
 * The places over which a cut is counted: every reading (repeats of a place averaged), and the unworn surface carried to
 * both edges beside each crossline, where nobody can read but the plane still cuts. Heights and places in mm.
 */
import type { Instrument } from "../board/instrument.ts";
import { halfWidthMm } from "../board/outline.ts";
import { heightVariance } from "../surface/surfaceUncertainty.ts";
import { type UnwornSurface, unwornHeightMm } from "../surface/unwornSurface.ts";
import type { WearAtReadings, WornReading } from "../wear/wearAtReadings.ts";

/** A place on the present surface with the standard uncertainty of its height. */
export type PresentPlace = {
  readonly xMm: number;
  readonly yMm: number;
  readonly presentMm: number;
  readonly uncertaintyMm: number;
  /** The readings that stand here; none for a place carried to the edge. */
  readonly readings: readonly WornReading[];
};

export function readingPlaces(wear: WearAtReadings, surface: UnwornSurface): readonly PresentPlace[] {
  return wear.places.map(({ mean, repeats }) => ({
    xMm: mean.xMm,
    yMm: mean.yMm,
    presentMm: mean.heightMm,
    uncertaintyMm: surface.noiseMm / Math.sqrt(repeats.length),
    readings: repeats,
  }));
}

export function edgePlaces(
  crosslinesMm: readonly number[],
  surface: UnwornSurface,
  instrument: Instrument,
): readonly PresentPlace[] {
  return crosslinesMm.flatMap((xMm) => [-1, 1].map((side) => carriedTo(xMm, side, surface, instrument)));
}

/** Parts of the half-width at which the lines of the nut and the bridge end are held. */
const acrossEnds = [-1, -0.75, -0.5, -0.25, 0, 0.25, 0.5, 0.75, 1];

const stationsAlong = 24;

/**
 * Places round the outline: on the lines of the nut and the bridge end, beyond the last readings, and along both edges. Without
 * them nothing holds the target there, and it may stand above the wood by a few hundredths of a millimetre; holding it costs at
 * most 0.003 mm (synthetic boards).
 */
export function outlinePlaces(surface: UnwornSurface, instrument: Instrument): readonly PresentPlace[] {
  const lengthMm = instrument.boardLengthMm.value;
  const along = Array.from({ length: stationsAlong - 1 }, (_, i) => (lengthMm * (i + 1)) / stationsAlong);
  return [
    ...[0, lengthMm].flatMap((xMm) => acrossEnds.map((side) => carriedTo(xMm, side, surface, instrument))),
    ...along.flatMap((xMm) => [-1, 1].map((side) => carriedTo(xMm, side, surface, instrument))),
  ];
}

/** The unworn surface at a part of the half-width, where nobody read. */
function carriedTo(xMm: number, side: number, surface: UnwornSurface, instrument: Instrument): PresentPlace {
  const yMm = side * halfWidthMm(instrument, xMm);
  return {
    xMm,
    yMm,
    presentMm: unwornHeightMm(surface, xMm, yMm),
    uncertaintyMm: Math.sqrt(heightVariance(surface, xMm, yMm)),
    readings: [],
  };
}
