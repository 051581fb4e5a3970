/**
 * Seeded boards for a quick look: shapes in and out of the workshop's tolerances, half of them worn, read at few places. Lengths in mm.
 *
 * Wider than syntheticBoards.ts: radii that taper and swell, twist, hollows to three tolerances off, noise from 0.006 to 0.016 mm.
 */
import { type MadeBoard, makeBoard } from "../../data/make/board.ts";
import { seededRandom } from "../../data/make/random.ts";
import type { Line, Recipe } from "../../data/make/recipe.ts";
import { aims, dressAtMm, type Kind, syntheticBoard } from "./syntheticBoards.ts";

const kinds: readonly Kind[] = ["violin", "viola", "cello", "bass"];

export type QuickBoard = {
  readonly name: string;
  readonly kind: Kind;
  readonly recipe: Recipe;
  readonly made: MadeBoard;
  /** How far out of its range the worst hollow and the worst radius truly are, in tolerances: 1 is the limit. */
  readonly hollowOff: number;
  readonly radiusOff: number;
  /** Deepest wear that a reading truly shows. */
  readonly wearMm: number;
};

/** Places along as shares of the length; three lines: under the outer strings and down the middle. */
const threeByFive = [0.03, 0.26, 0.5, 0.74, 0.97] as const;

export function quickBoard(seed: number, along: readonly number[] = threeByFive): QuickBoard {
  const kind = kinds[seed % 4]!;
  const isWorn = seed % 8 >= 4;
  const random = seededRandom(seed + 777);
  const usual = syntheticBoard(kind, "7 x 11", seed + 100, isWorn);
  const { plan } = usual;
  const { hollowTolMm, lowestMm, highestMm, radiusMm, radiusTolMm } = aims[kind];
  const largeMm = plan.widthEndMm / 60;
  const taperMm = random.between(-2, 2) * largeMm;
  const fullerMm = random.uniform() < 0.5 ? 0 : random.between(-2, 2) * radiusTolMm;
  const off = random.uniform() < 0.5 ? 1 : 3;
  const lines: Line[] = [plan.strings[0]!, "centre", plan.strings.at(-1)!];
  const recipe: Recipe = {
    ...usual,
    shape: {
      ...usual.shape,
      radiusNutMm: radiusMm + fullerMm - taperMm / 2,
      radiusEndMm: radiusMm + fullerMm + taperMm / 2,
      radiusSwellMm: random.between(-0.5, 0.5) * largeMm,
      twistDeg: random.between(-0.8, 0.8),
      deepestAt: random.between(0.45, 0.55),
      hollowLowestMm: lowestMm + off * random.between(-1, 1) * hollowTolMm,
      hollowHighestMm: highestMm + off * random.between(-1, 1) * hollowTolMm,
    },
    probe: { ...usual.probe, noiseMm: random.between(0.006, 0.016) },
    // The gauge of these boards scatters but does not err.
    writing: { ...usual.writing, settings: [...usual.writing.settings, ["gauge_error", "0"]] },
    rounds: { ...usual.rounds, crosslinesMm: along.map((share) => Math.round(share * plan.lengthMm)), lines },
  };
  const made = makeBoard(recipe);
  const radii = Object.values(made.truth.radiusMm);
  const outerHollows = [made.truth.hollowsMm[0]! - lowestMm, made.truth.hollowsMm.at(-1)! - highestMm];
  return {
    name: `${kind} seed ${seed}${isWorn ? ", worn" : ""}`,
    kind,
    recipe,
    made,
    hollowOff: Math.max(...outerHollows.map(Math.abs)) / hollowTolMm,
    radiusOff: Math.max(...radii.map((radius) => Math.abs(radius - radiusMm))) / radiusTolMm,
    wearMm: made.truth.deepestReading.depthMm,
  };
}

/** Truly right in every respect that a quick look judges. */
export function isSound({ hollowOff, radiusOff, wearMm }: QuickBoard): boolean {
  return hollowOff <= 1 && radiusOff <= 1 && wearMm <= dressAtMm;
}
