/**
 * Seeded boards of every kind with known wear, for tests that ask: known wear in, same wear out?
 *
 * Rolled, pitched, twisted, slightly tapered, a little off the workshop's shape but inside its tolerances; pits centred on
 * places that are read, up to 0.4 mm deep, towards the nut; at most 30 % of the readings worn. Lengths in mm.
 */
import { halfWidthMm, lineYMm } from "../../data/make/plan.ts";
import { bass, cello, viola, violin } from "../../data/make/plans.ts";
import { type Random, seededRandom } from "../../data/make/random.ts";
import type { Line, Plan, Recipe, Shape, WearMark, Wood } from "../../data/make/recipe.ts";
import { stringRut, wearField } from "../../data/make/wear.ts";

export type Kind = "violin" | "viola" | "cello" | "bass";
export type Layout = "5 x 12" | "7 x 11" | "7 x 13" | "20 x 20";

/** What the workshop of these tests aims at: radius at every crossline, hollows, their tolerances, least edge. */
export const aims = {
  violin: {
    plan: violin,
    radiusMm: 42,
    radiusTolMm: 1.5,
    lowestMm: 0.7,
    highestMm: 0.5,
    hollowTolMm: 0.1,
    edgeLimitMm: 4,
  },
  viola: {
    plan: viola,
    radiusMm: 42,
    radiusTolMm: 2,
    lowestMm: 1,
    highestMm: 0.6,
    hollowTolMm: 0.15,
    edgeLimitMm: 4.3,
  },
  cello: { plan: cello, radiusMm: 65, radiusTolMm: 3, lowestMm: 1.5, highestMm: 1, hollowTolMm: 0.2, edgeLimitMm: 5.4 },
  bass: { plan: bass, radiusMm: 80, radiusTolMm: 5, lowestMm: 2.5, highestMm: 1.5, hollowTolMm: 0.3, edgeLimitMm: 6 },
} as const;

/** How far the target may tilt the strings' end and shift its crown, and the cut it must take everywhere, mm. */
export const projectionBoundMm = 1;
export const crownBoundMm = 1;
export const allowanceMm = 0;

/** Depth of wear from which these tests' workshop dresses a board. */
export const dressAtMm = 0.2;

export function syntheticBoard(kind: Kind, layout: Layout, seed: number, worn: boolean): Recipe {
  const random = seededRandom(seed);
  const { plan } = aims[kind];
  const crosslinesMm = crosslines(plan, layout);
  const lines = linesOf(plan, layout);
  const shape = ownShape(kind, random);
  const tipRadiusMm = [0, 0.5, 1, 1.5][seed % 4]!;
  return {
    seed: seed + 5000,
    plan,
    shape,
    wear: worn ? wearOn(plan, crosslinesMm, lines, random) : [],
    rounds: { crosslinesMm, lines, edgeInsetMm: 3, missing: [], repeated: [] },
    probe: { tipRadiusMm, noiseMm: 0.01, resolutionMm: 0.01 },
    wood: null,
    writing: {
      file: "list",
      separator: ",",
      decimal: ".",
      unitMm: 1,
      decimals: 2,
      settings: settingsFor(kind, plan, tipRadiusMm),
    },
  };
}

/** The same edge thickness all round; the calliper is good to 0.02 mm. */
export function evenEdges(plan: Plan, edgeMm: number): Wood {
  return {
    bassNutMm: edgeMm,
    bassEndMm: edgeMm,
    trebleNutMm: edgeMm,
    trebleEndMm: edgeMm,
    centre: null,
    atMm: edgePlacesMm(plan.lengthMm),
    noiseMm: 0.02,
  };
}

export function edgePlacesMm(lengthMm: number): number[] {
  return [0.03, 0.2, 0.4, 0.6, 0.8, 0.97].map((share) => Math.round(share * lengthMm));
}

/** Closer together towards the nut, where boards wear. */
function crosslines(plan: Plan, layout: Layout): number[] {
  const count = Number(layout.split(" x ")[1]);
  return Array.from({ length: count }, (_, k) => Math.round((0.015 + 0.97 * (k / (count - 1)) ** 1.3) * plan.lengthMm));
}

function linesOf(plan: Plan, layout: Layout): Line[] {
  const [lowest, second, third, highest] = plan.strings;
  if (layout === "5 x 12") return [lowest!, second!, "centre", third!, highest!];
  if (layout === "20 x 20") return Array.from({ length: 20 }, (_, k) => ({ share: (2 * k) / 19 - 1 }));
  return [lowest!, `${lowest}/${second}`, second!, `${second}/${third}`, third!, `${third}/${highest}`, highest!];
}

function ownShape(kind: Kind, random: Random): Shape {
  const { radiusMm, lowestMm, highestMm } = aims[kind];
  const taperMm = random.between(-0.4, 0.4);
  const fullerMm = random.between(-0.3, 0.3);
  return {
    radiusNutMm: radiusMm + fullerMm - taperMm / 2,
    radiusEndMm: radiusMm + fullerMm + taperMm / 2,
    radiusSwellMm: 0,
    hollowLowestMm: lowestMm + random.between(-0.05, 0.05),
    hollowHighestMm: highestMm + random.between(-0.05, 0.05),
    deepestAt: random.between(0.47, 0.53),
    rollDeg: random.between(-1, 1),
    twistDeg: random.between(-0.4, 0.4),
    heightMm: random.between(8, 20),
    pitch: random.between(-0.004, 0.004),
    facet: null,
    bendMm: 0,
  };
}

/** Pits on places that are read, in the half towards the nut, until about a quarter of the readings is worn. */
function wearOn(plan: Plan, crosslinesMm: readonly number[], lines: readonly Line[], random: Random): WearMark[] {
  const spots = crosslinesMm.flatMap((xMm) => lines.map((line) => ({ xMm, yMm: lineYMm(plan, line, xMm, 3) })));
  const wornShare = (marks: readonly WearMark[]): number => {
    const depthMm = wearField(plan, marks);
    return spots.filter(({ xMm, yMm }) => depthMm(xMm, yMm) > 0.005).length / spots.length;
  };
  const goal = random.between(0.1, 0.27);
  const deepestMm = random.between(0.08, 0.4);
  let marks: WearMark[] =
    random.uniform() < 0.3 ? [stringRut(plan, plan.strings.at(-1)!, [2, 7], 4, deepestMm / 4)] : [];
  const centres = spots.filter(({ xMm }) => xMm > 0.03 * plan.lengthMm && xMm < 0.45 * plan.lengthMm);
  for (let tries = 0; tries < 200 && wornShare(marks) < goal; tries++) {
    const centre = centres[Math.floor(random.uniform() * centres.length)]!;
    const pit: WearMark = {
      mark: "pit",
      ...centre,
      halfLengthMm: random.between(0.03, 0.06) * plan.lengthMm,
      halfWidthMm: random.between(0.2, 0.35) * halfWidthMm(plan, centre.xMm),
      depthMm: deepestMm * random.between(0.4, 1),
    };
    const more = [...marks, pit];
    const depthMm = wearField(plan, more);
    const tooDeep = spots.some(({ xMm, yMm }) => depthMm(xMm, yMm) > 0.4);
    if (!tooDeep && wornShare(more) <= 0.3) marks = more;
  }
  return marks;
}

function settingsFor(kind: Kind, plan: Plan, tipRadiusMm: number): (readonly [string, string])[] {
  const { radiusMm, radiusTolMm, lowestMm, highestMm, hollowTolMm, edgeLimitMm } = aims[kind];
  return Object.entries({
    instrument: kind,
    board_length: plan.lengthMm,
    width_nut: plan.widthNutMm,
    width_end: plan.widthEndMm,
    string_length: plan.stringLengthMm,
    spacing_nut: plan.spacingNutMm,
    spacing_bridge: plan.spacingBridgeMm,
    tip_radius: tipRadiusMm,
    resolution: 0.01,
    tension: "on",
    build: "solid",
    rut_width: 4,
    radius_nut: radiusMm,
    radius_middle: radiusMm,
    radius_end: radiusMm,
    hollow_lowest: lowestMm,
    hollow_highest: highestMm,
    hollow_deepest: 0.5,
    radius_tolerance: radiusTolMm,
    hollow_tolerance: hollowTolMm,
    projection_bound: projectionBoundMm,
    crown_bound: crownBoundMm,
    allowance: allowanceMm,
    edge_limit: edgeLimitMm,
    dress_at: dressAtMm,
  }).map(([key, value]) => [key, String(value)] as const);
}
