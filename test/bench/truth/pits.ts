/**
 * Small pits on boards otherwise unworn: are they found? Lengths in mm.
 *
 * In: an unworn board of the bench, a noise. Out: whether a worn place is named where the pit is, under each setting.
 */
import { makeBoard, readAgain } from "../../../data/make/board.ts";
import { lineYMm } from "../../../data/make/plan.ts";
import { seededRandom } from "../../../data/make/random.ts";
import type { Line, Recipe, WearMark } from "../../../data/make/recipe.ts";
import type { WornPlace } from "../../../server/core/examination.ts";
import { type BenchBoard, type GridName, scatterMm, withMarks, withNoise } from "./benchBoard.ts";
import { shareOf } from "./figures.ts";
import { type SetName, setNames, settingsAsked } from "./namingSets.ts";
import { type Cell, goal, percent, tableText } from "./table.ts";
import { examineBoard } from "./toolRun.ts";

/** How deep the pits are, in units of the scatter; how many of them are to be found. */
const pitDepth = 5;
const foundGoals = { "on 3 x 3 readings": 0.99, "on a place read 3 times": 0.9 } as const;

export type Found = {
  readonly pit: keyof typeof foundGoals;
  readonly grid: GridName;
  readonly noiseMm: number;
  readonly set: SetName;
  readonly found: boolean;
};

/** One small pit of each sort on an unworn board, at this noise: is it named? */
export function pitsOn(board: BenchBoard, noiseMm: number): Found[] {
  const recipe = withNoise(board.recipe, noiseMm, board.asked.seed + 3);
  return (["on 3 x 3 readings", "on a place read 3 times"] as const).flatMap((pit): Found[] => {
    const { marked, mark } = withPit(recipe, pit, board.asked.seed);
    const bare = makeBoard(marked);
    const made = readAgain(bare, marked);
    return setNames.flatMap((set): Found[] => {
      const examined = examineBoard(made, settingsAsked[set]);
      if (examined.outcome === "refused") return [];
      return [
        {
          pit,
          grid: board.asked.grid,
          noiseMm,
          set,
          found: examined.examination.wornPlaces.some((place) => isAt(place, mark)),
        },
      ];
    });
  });
}

type Pit = Extract<WearMark, { mark: "pit" }>;

/**
 * A pit round a reading in the half towards the nut: twice as far as the next readings both ways, so that nine readings lie in
 * it; or not quite as far as they, on a place read three times with a fine tip.
 */
function withPit(recipe: Recipe, pit: Found["pit"], seed: number): { marked: Recipe; mark: Pit } {
  const { plan, rounds, probe } = recipe;
  const random = seededRandom(seed + 17);
  const inner = (count: number) => 1 + Math.floor(random.uniform() * (count - 2));
  const column = inner(Math.ceil(rounds.crosslinesMm.length / 2));
  const row = inner(rounds.lines.length);
  const xMm = rounds.crosslinesMm[column]!;
  const yOf = (k: number) => lineYMm(plan, rounds.lines[k]!, xMm, rounds.edgeInsetMm);
  const alongMm = Math.min(xMm - rounds.crosslinesMm[column - 1]!, rounds.crosslinesMm[column + 1]! - xMm);
  const acrossMm = Math.min(yOf(row) - yOf(row - 1), yOf(row + 1) - yOf(row));
  const reach = pit === "on 3 x 3 readings" ? 2 : 0.9;
  const mark: Pit = {
    mark: "pit",
    xMm,
    yMm: yOf(row),
    halfLengthMm: reach * alongMm,
    halfWidthMm: reach * acrossMm,
    depthMm: pitDepth * scatterMm(recipe),
  };
  if (pit === "on 3 x 3 readings") return { marked: withMarks(recipe, [mark]), mark };
  const name = cellName(xMm, rounds.lines[row]!);
  return { marked: withMarks({ ...recipe, probe: { ...probe, tipRadiusMm: 0 } }, [mark], [name, name]), mark };
}

function cellName(xMm: number, line: Line): string {
  return `${xMm} ${typeof line === "object" ? line.share : line}`;
}

/** Worn, and its extent reaches the middle of the pit within half the pit. */
function isAt({ kind, xMm, yMm }: WornPlace, mark: Pit): boolean {
  const holds = ([from, to]: readonly [number, number], at: number, reach: number) =>
    at > from - reach && at < to + reach;
  return kind !== "hump" && holds(xMm, mark.xMm, mark.halfLengthMm / 2) && holds(yMm, mark.yMm, mark.halfWidthMm / 2);
}

export function foundTable(title: string, groups: readonly (readonly [string, readonly Found[]])[]): string {
  const rows = groups.flatMap(([name, all]) =>
    setNames.map((set): Cell[] => {
      const those = all.filter((one) => one.set === set);
      const share = shareOf(those, ({ found }) => found);
      const least = foundGoals[those[0]?.pit ?? "on 3 x 3 readings"];
      return [name, set, String(those.length), percent(share), percent(least), goal(share >= least)];
    }),
  );
  return tableText(title, ["pit of 5 x noise", "setting", "boards", "found", "wanted", "goals"], rows);
}
