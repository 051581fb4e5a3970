/**
 * What kind of camber a target has along the board, as the template sees it.
 *
 *   one radius      the same at nut, middle and end: one template serves the whole board
 *   straight taper  the middle is the mean of the ends: a row of templates in even steps
 *   free            the three float as they save wood
 *
 * Each is a set of ties a·placement = 0 between the radii, in the order of placementNames.
 */
import type { Instrument } from "../board/instrument.ts";
import type { Job } from "../board/settings.ts";
import type { Arc } from "../examination.ts";
import { type PlacementName, placementNames } from "./targetSurface.ts";

type Tie = { readonly [name in PlacementName]?: number };

const ties: { readonly [arc in Arc]: readonly Tie[] } = {
  "one radius": [
    { radiusNutMm: 1, radiusMiddleMm: -1 },
    { radiusMiddleMm: 1, radiusEndMm: -1 },
  ],
  "straight taper": [{ radiusNutMm: 1, radiusMiddleMm: -2, radiusEndMm: 1 }],
  free: [],
};

export function tiesOf(arc: Arc): readonly (readonly number[])[] {
  return ties[arc].map((tie) => placementNames.map((name) => tie[name] ?? 0));
}

type Radii = { readonly radiusNutMm: number; readonly radiusMiddleMm: number; readonly radiusEndMm: number };

/** Radii that differ by less than this are the same to any template, mm. */
const sameRadiusMm = 1e-3;

/** The plainest name that these radii deserve. */
export function arcOf({ radiusNutMm, radiusMiddleMm, radiusEndMm }: Radii): Arc {
  if (Math.abs(radiusNutMm - 2 * radiusMiddleMm + radiusEndMm) > 2 * sameRadiusMm) return "free";
  return Math.abs(radiusNutMm - radiusEndMm) > sameRadiusMm ? "straight taper" : "one radius";
}

/** Half of what a good gauge shows, less than a stroke of the scraper, mm. */
const hardlyACutMm = 0.005;

/**
 * How much deeper than the least cut a plainer arc may be, mm. Wood of a worn board never comes back, so next to nothing; a new
 * board is planed all over anyhow, and may spend what scraper and paper take.
 */
export function worthATemplateMm(instrument: Instrument, job: Job): number {
  return job.newBoard ? Math.max(hardlyACutMm, instrument.finishAllowanceMm.value) : hardlyACutMm;
}
