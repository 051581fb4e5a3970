/**
 * The bench's boards as they left the plane, and what their workshop aims at. Lengths in mm.
 *
 * In: kind or family, a random source. Out: bounds of the target; the board's own shape. It is tapered, fuller or flatter than the
 * aim, twisted, rolled and pitched, but always well inside the workshop's tolerances, so that its shape alone never calls for a
 * dressing. The hollow is deepest so near the middle that the leaned parabola it is made with and the curve it is fitted with
 * differ by no more than a micrometre or so (rms).
 */
import type { Random } from "../../../data/make/random.ts";
import type { FlatFacet, Plan, Shape, Wave } from "../../../data/make/recipe.ts";
import type { Bounds } from "../../support/referenceCut.ts";
import { aims, crownBoundMm, type Kind, projectionBoundMm } from "../../support/syntheticBoards.ts";

export type Family = "ideal" | "hand-planed" | "facet";

/** What the workshop aims at: in every other board a radius that grows towards the bridge. */
export function boundsOf(kind: Kind, random: Random): Bounds {
  const { plan, radiusMm, radiusTolMm, lowestMm, highestMm, hollowTolMm } = aims[kind];
  const taperMm = random.uniform() < 0.5 ? 0 : random.between(0, 3) * radiusTolMm;
  return {
    pitch: projectionBoundMm / plan.stringLengthMm,
    crownMm: crownBoundMm,
    radiiMm: [tenths(radiusMm - taperMm / 2), tenths(radiusMm), tenths(radiusMm + taperMm / 2)],
    radiusBandMm: radiusTolMm,
    hollowsMm: [lowestMm, highestMm],
    hollowBandMm: hollowTolMm,
    allowanceMm: 0,
    deepestAt: 0.5,
  };
}

const tenths = (lengthMm: number): number => Math.round(lengthMm * 10) / 10;

export function ownShape(plan: Plan, family: Family, bounds: Bounds, random: Random): Shape {
  const { radiusBandMm, hollowBandMm } = bounds;
  const fullerMm = random.between(-0.2, 0.2) * radiusBandMm;
  const taperMm = random.between(-0.2, 0.2) * radiusBandMm;
  return {
    radiusNutMm: bounds.radiiMm[0] + fullerMm - taperMm,
    radiusEndMm: bounds.radiiMm[2] + fullerMm + taperMm,
    radiusSwellMm: random.between(-0.1, 0.1) * radiusBandMm,
    hollowLowestMm: bounds.hollowsMm[0] + random.between(-0.4, 0.4) * hollowBandMm,
    hollowHighestMm: bounds.hollowsMm[1] + random.between(-0.4, 0.4) * hollowBandMm,
    deepestAt: random.between(0.48, 0.52),
    rollDeg: random.between(-1.5, 1.5),
    twistDeg: random.between(-0.6, 0.6),
    heightMm: random.between(8, 20),
    pitch: random.between(-0.004, 0.004),
    facet: family === "facet" ? facetOf(plan, bounds, random) : null,
    bendMm: 0,
    waves: family === "hand-planed" ? wavesOf(plan, random) : [],
  };
}

/** A flat that begins between the two lowest strings' paths and falls a little more steeply than the arc where it begins. */
function facetOf(plan: Plan, { radiiMm }: Bounds, random: Random): FlatFacet {
  const ridgeNutMm = -tenths(random.between(0.2, 0.25) * plan.widthNutMm);
  const ridgeEndMm = -tenths(random.between(0.22, 0.27) * plan.widthEndMm);
  const steeper = random.between(1.1, 1.35);
  return {
    ridgeNutMm,
    ridgeEndMm,
    slopeNut: (steeper * -ridgeNutMm) / radiiMm[0],
    slopeEnd: (steeper * -ridgeEndMm) / radiiMm[2],
  };
}

/** Two waves of 0.02 to 0.04 mm together, a third of the length to the whole of it, changing slowly across. */
function wavesOf(plan: Plan, random: Random): Wave[] {
  const togetherMm = random.between(0.02, 0.04);
  const share = random.between(0.3, 0.7);
  return [share, 1 - share].map((part) => ({
    amplitudeMm: part * togetherMm,
    lengthMm: random.between(1 / 3, 1) * plan.lengthMm,
    phaseRad: random.between(0, 2 * Math.PI),
    turnRad: random.between(-1.5, 1.5),
  }));
}
