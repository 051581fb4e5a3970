/**
 * A board of the bench as it was read: made once, the ball lowered once, then read with each noise.
 *
 * With `wood` its edges are made so thick that the least cut leaves them clear of the limit by 0.2 mm or more, clear below it, or
 * not clear at all, by turns. The least cut that is meant is that of the truth (test/support/trueLeastCut.ts). Lengths in mm.
 */
import { type MadeBoard, makeBoard, readAgain, withWood } from "../../../data/make/board.ts";
import { seededRandom } from "../../../data/make/random.ts";
import { aims, dressAtMm, evenEdges } from "../../support/syntheticBoards.ts";
import { type TrueLeast, trueLeastCut } from "../../support/trueLeastCut.ts";
import { type BenchBoard, withNoise } from "./benchBoard.ts";

export const noisesMm: readonly number[] = [0.005, 0.01, 0.02];

export type Clear = "above" | "below" | "near";

export type BoardRead = {
  readonly board: BenchBoard;
  readonly made: MadeBoard;
  readonly noiseMm: number;
  /** Null where no thickness was asked for. */
  readonly wood: { readonly least: TrueLeast; readonly clear: Clear } | null;
};

export function readAtEachNoise(board: BenchBoard, withThickness: boolean): BoardRead[] {
  const { recipe, asked } = board;
  const bare = makeBoard(recipe);
  const wood = withThickness && recipe.shape.facet === null ? woodFor(board, bare) : null;
  const made = wood === null ? bare : withWood(bare, recipe, evenEdges(recipe.plan, wood.edgeMm));
  return noisesMm.map((noiseMm, k) => {
    const noisy = withNoise(recipe, noiseMm, asked.seed * 7 + k);
    return { board: { ...board, recipe: noisy }, made: readAgain(made, noisy), noiseMm, wood };
  });
}

function woodFor(
  { asked, recipe, bounds }: BenchBoard,
  made: MadeBoard,
): { least: TrueLeast; clear: Clear; edgeMm: number } {
  const random = seededRandom(asked.seed + 9000);
  const least = trueLeastCut(recipe, made, bounds);
  const limitMm = aims[asked.kind].edgeLimitMm;
  const clear = (["above", "below", "above", "near"] as const)[Math.floor(random.uniform() * 4)]!;
  if (made.truth.deepestReading.depthMm < dressAtMm || clear === "above") {
    return { least, clear: "above", edgeMm: limitMm + least.edgeMm + random.between(0.2, 1) };
  }
  if (clear === "below") return { least, clear, edgeMm: limitMm + least.sparedEdgeMm() - random.between(0.2, 0.5) };
  return { least, clear, edgeMm: limitMm + least.edgeMm + random.between(-0.15, 0.15) };
}
