/**
 * A made board as plain numbers, to be told in another way and written out again. Lengths in mm, y towards treble.
 */
import { makeBoard, withWood } from "../../data/make/board.ts";
import type { Recipe } from "../../data/make/recipe.ts";
import { evenEdges, type Kind, type Layout, syntheticBoard } from "./syntheticBoards.ts";

export type ReadingInNumbers = { readonly xMm: number; readonly yMm: number; readonly heightMm: number };
export type EdgeInNumbers = { readonly xMm: number; readonly side: "bass" | "treble"; readonly thicknessMm: number };

export type BoardInNumbers = {
  readonly name: string;
  readonly settings: Readonly<Record<string, string>>;
  readonly readings: readonly ReadingInNumbers[];
  readonly edges: readonly EdgeInNumbers[];
};

export type Written = {
  /** Comment lines that hold no setting, after those that do. */
  readonly remarks?: readonly string[];
  /** Millimetres to a unit of the heights, and of x and y. */
  readonly unitMm?: number;
  readonly placeUnitMm?: number;
};

/** Twenty boards, most of them worn, of every kind, layout and tip, noise 0.01 mm and steps of 0.01 mm. */
export function twentyRecipes(): readonly { readonly name: string; readonly recipe: Recipe }[] {
  const kinds: readonly Kind[] = ["violin", "viola", "cello", "bass"];
  const layouts: readonly Layout[] = ["7 x 11", "5 x 12", "7 x 13", "7 x 11", "7 x 13"];
  // 601 and on: the seed's remainder by four is the tip's, which so changes with the kind and the layout.
  return kinds.flatMap((kind, k) =>
    layouts.map((layout, i) => {
      const seed = 601 + 5 * k + i;
      const worn = i < 4;
      return {
        name: `${kind} ${layout} seed ${seed}${worn ? "" : " unworn"}`,
        recipe: syntheticBoard(kind, layout, seed, worn),
      };
    }),
  );
}

export function twentyBoards(): readonly BoardInNumbers[] {
  return twentyRecipes().map(({ name, recipe }) => {
    const made = withWood(makeBoard(recipe), recipe, evenEdges(recipe.plan, 6.2));
    return {
      name,
      settings: Object.fromEntries(recipe.writing.settings),
      readings: made.truth.readings.map(({ crosslineMm, yMm, readMm }) => ({
        xMm: crosslineMm,
        yMm,
        heightMm: readMm,
      })),
      edges: made.truth.thickness.flatMap(({ xMm, side, readMm }, i) =>
        // No two edges alike: where two have as little to spare, either may be named as the thinnest.
        side === "centre" ? [] : [{ xMm, side, thicknessMm: readMm + 0.0013 * i }],
      ),
    };
  });
}

/** A list with x, y and height, every number to its last digit. */
export function readingsCsv({ settings, readings }: BoardInNumbers, written: Written = {}): string {
  const { remarks = [], unitMm = 1, placeUnitMm = 1 } = written;
  const rows = readings.map(({ xMm, yMm, heightMm }) =>
    [xMm / placeUnitMm, yMm / placeUnitMm, heightMm / unitMm].join(","),
  );
  const heading = Object.entries(settings).map(([key, value]) => `# ${key}: ${value}`);
  return [...heading, ...remarks, "x,y,height", ...rows, ""].join("\n");
}

export function thicknessCsv({ edges }: BoardInNumbers): string {
  return ["x,side,thickness", ...edges.map(({ xMm, side, thicknessMm }) => `${xMm},${side},${thicknessMm}`), ""].join(
    "\n",
  );
}
