/**
 * Odd boards: seeded boards under seeded settings that are legal but that no workshop would write, to see what breaks.
 *
 * In: a seed. Out: the two files that the bench would hand in, as text, and what was asked. About a third of the settings stay
 * at the workshop's own; the others are drawn from the ends of their ranges. Lengths in mm. Readings are a point's: the tip that
 * the settings name is part of the mischief.
 */
import { type MadeBoard, makeBoard } from "../../data/make/board.ts";
import { halfWidthMm } from "../../data/make/plan.ts";
import { bass, cello, viola, violin } from "../../data/make/plans.ts";
import { type Random, seededRandom } from "../../data/make/random.ts";
import type { Line, Plan, Recipe, WearMark, Wood } from "../../data/make/recipe.ts";

export type Asked = Readonly<Record<string, string>>;

export type OddBoard = {
  readonly seed: number;
  readonly kind: keyof typeof usual;
  readonly recipe: Recipe;
  readonly made: MadeBoard;
  readonly asked: Asked;
};

const usual = {
  violin: { plan: violin, radiusMm: 42, hollowsMm: [0.7, 0.5] },
  viola: { plan: viola, radiusMm: 42, hollowsMm: [1, 0.6] },
  cello: { plan: cello, radiusMm: 65, hollowsMm: [1.5, 1] },
  bass: { plan: bass, radiusMm: 80, hollowsMm: [2.5, 1.5] },
} as const;

const kinds = ["violin", "viola", "cello", "bass"] as const;

export function oddBoard(seed: number): OddBoard {
  const random = seededRandom(seed);
  const kind = pick(random, kinds);
  const { plan, radiusMm, hollowsMm } = usual[kind];
  const along = pick(random, [5, 7, 9, 11, 13, 17]);
  const lines = linesOf(pick(random, [3, 5, 7, 9]), along);
  const reachShare = random.uniform() < 0.15 ? random.between(0.3, 0.7) : 0.97;
  const crosslinesMm = Array.from(
    { length: along },
    (_, k) => Math.round(10 * (0.015 + (reachShare - 0.015) * (k / (along - 1)) ** 1.2) * plan.lengthMm) / 10,
  );
  const outOfShape = pick(random, [0, 1, 1, 4]);
  const asked = settingsOf(random, kind);
  const recipe: Recipe = {
    seed: seed + 70_000,
    plan,
    shape: {
      radiusNutMm: radiusMm + outOfShape * random.between(-3, 3),
      radiusEndMm: radiusMm + outOfShape * random.between(-3, 3),
      radiusSwellMm: outOfShape * random.between(-1, 1),
      hollowLowestMm: hollowsMm[0] + outOfShape * random.between(-0.2, 0.2),
      hollowHighestMm: hollowsMm[1] + outOfShape * random.between(-0.1, 0.1),
      deepestAt: random.between(0.45, 0.55),
      rollDeg: random.between(-2, 2),
      twistDeg: outOfShape * random.between(-1, 1),
      heightMm: random.between(-20, 20),
      pitch: random.between(-0.03, 0.03),
      facet: null,
      bendMm: random.uniform() < 0.1 ? random.between(0, 3) : 0,
    },
    wear: Array.from({ length: pick(random, [0, 1, 3, 8]) }, () => markOf(random, plan)),
    rounds: { crosslinesMm, lines, edgeInsetMm: 3, missing: [], repeated: [] },
    probe: {
      tipRadiusMm: 0,
      noiseMm: pick(random, [1e-6, 0.002, 0.01, 0.05]),
      resolutionMm: pick(random, [1e-6, 0.01, 0.1]),
    },
    wood: woodOf(random, plan),
    writing: {
      file: "list",
      separator: ",",
      decimal: ".",
      unitMm: 1,
      decimals: 6,
      settings: Object.entries(asked),
    },
  };
  return { seed, kind, recipe, made: makeBoard(recipe), asked };
}

/** One setting in five is taken from the far ends of what is accepted; the rest are left out, as most benches do. */
function settingsOf(random: Random, kind: keyof typeof usual): Asked {
  const radius = (): string => pick(random, ["32", "45.5", "60", "90", "300", "2000"]);
  const { plan } = usual[kind];
  const ends: readonly (readonly [string, () => string])[] = [
    ["tip_radius", () => pick(random, ["0", "0.5", "1.5", "6", "20"])],
    ["resolution", () => pick(random, ["0", "0.01", "1"])],
    ["gauge_error", () => pick(random, ["0", "0.02", "1"])],
    ["edge_inset", () => pick(random, ["0", "2"])],
    ["rut_width", () => pick(random, ["0.05", "0.6", "4", "20"])],
    ["tension", () => pick(random, ["on", "off"])],
    ["radius_tolerance", () => pick(random, ["0", "1", "200"])],
    ["hollow_tolerance", () => pick(random, ["0", "0.1", "5"])],
    ["radius_band", () => pick(random, ["0", "1", "200"])],
    ["hollow_band", () => pick(random, ["0", "0.1", "5"])],
    ["hollow_lowest", () => pick(random, ["0", "0.3", "3", "8"])],
    ["hollow_highest", () => pick(random, ["0", "0.3", "3", "8"])],
    ["hollow_deepest", () => pick(random, ["0.3", "0.5", "0.7"])],
    ["aim", () => pick(random, ["workshop", "own"])],
    ["edge_limit", () => pick(random, ["0", "0.5", "5"])],
    ["centre_limit", () => pick(random, ["0", "0.5", "5"])],
    ["dress_at", () => pick(random, ["0.01", "0.2", "5"])],
    ["dressing_spend", () => pick(random, ["0.01", "5"])],
    ["allowance", () => pick(random, ["0", "0.1", "3"])],
    ["finish_allowance", () => pick(random, ["0", "1"])],
    ["projection_bound", () => pick(random, ["0", "1", "20"])],
    ["crown_bound", () => pick(random, ["0", "1", "20"])],
    ["valuable", () => pick(random, ["yes", "no"])],
    ["loose", () => pick(random, ["yes", "no", "no", "no"])],
    ["new_board", () => pick(random, ["yes", "no"])],
  ];
  const wild = pick(random, [0.05, 0.2, 0.6]);
  const drawn = ends.flatMap(([key, draw]) => (random.uniform() < wild ? [[key, draw()] as const] : []));
  const radii =
    random.uniform() < wild
      ? (["radius_nut", "radius_middle", "radius_end"] as const).map(
          (key) => [key, kind === "bass" ? pick(random, ["46", "90", "300", "2000"]) : radius()] as const,
        )
      : [];
  return {
    instrument: kind,
    board_length: String(plan.lengthMm),
    width_nut: String(plan.widthNutMm),
    width_end: String(plan.widthEndMm),
    string_length: String(plan.stringLengthMm),
    spacing_nut: String(plan.spacingNutMm),
    spacing_bridge: String(plan.spacingBridgeMm),
    build: pick(random, ["solid", "solid", "solid", "solid", "unknown", "veneered", "dyed"]),
    ...Object.fromEntries(drawn),
    ...Object.fromEntries(radii),
  };
}

/** Enough lines for the fewest readings that are taken at all. */
function linesOf(wanted: number, along: number): Line[] {
  const count = wanted * along < 24 ? 5 : wanted;
  return Array.from({ length: count }, (_, k) => ({ share: (2 * k) / (count - 1) - 1 }));
}

function markOf(random: Random, plan: Plan): WearMark {
  const depthMm = pick(random, [0.05, 0.3, 1, 3, -0.2]) * random.between(0.5, 1);
  if (random.uniform() < 0.3) {
    const fromMm = random.between(0.02, 0.4) * plan.lengthMm;
    const string = plan.strings[Math.floor(random.uniform() * 4)] ?? "";
    return {
      mark: "rut",
      string,
      fromMm,
      toMm: fromMm + 0.3 * plan.lengthMm,
      widthMm: random.between(0.5, 6),
      depthMm,
    };
  }
  const xMm = random.uniform() * plan.lengthMm;
  return {
    mark: "pit",
    xMm,
    yMm: random.between(-1, 1) * halfWidthMm(plan, xMm),
    halfLengthMm: random.between(0.01, 0.3) * plan.lengthMm,
    halfWidthMm: random.between(0.1, 1) * halfWidthMm(plan, xMm),
    depthMm,
  };
}

function woodOf(random: Random, plan: Plan): Wood | null {
  if (random.uniform() < 0.2) return null;
  const edgeMm = random.between(2, 9);
  return {
    bassNutMm: edgeMm,
    bassEndMm: edgeMm + random.between(-0.5, 0.5),
    trebleNutMm: edgeMm + random.between(-0.5, 0.5),
    trebleEndMm: edgeMm,
    centre: random.uniform() < 0.5 ? { fromMm: 0.6 * plan.lengthMm, thicknessMm: random.between(2, 12) } : null,
    atMm: [0.05, 0.3, 0.6, 0.8, 0.95].map((share) => share * plan.lengthMm),
    noiseMm: 0.02,
  };
}

function pick<T>(random: Random, from: readonly T[]): T {
  return from[Math.floor(random.uniform() * from.length)] as T;
}
