/**
 * Depth contours of a field, as rings of places on the board.
 *
 * Field and levels in mm -> one contour a level, its rings in mm. d3-contour counts cells with their centres at ½; a NaN cell is a
 * hole. Rings close off the board, where the outline cuts them away.
 */
import { contours } from "d3";
import type { PlaceMm } from "./board.ts";
import type { Field } from "./field.ts";

export type ContourLine = { readonly levelMm: number; readonly rings: readonly (readonly PlaceMm[])[] };

export function contourLines(field: Field, levelsMm: readonly number[]): readonly ContourLine[] {
  const trace = contours().size([field.columns, field.rows]).smooth(true);
  const depths = Array.from(field.depthsMm);
  return levelsMm.map((levelMm) => ({
    levelMm,
    rings: trace
      .contour(depths, levelMm)
      .coordinates.flatMap((polygon) =>
        polygon.map((ring) =>
          ring.map(
            ([column, row]): PlaceMm => [
              field.x0Mm + (column! - 0.5) * field.stepXMm,
              field.y0Mm + (row! - 0.5) * field.stepYMm,
            ],
          ),
        ),
      ),
  }));
}

/** Even steps for a cut, which has ground everywhere: six to ten lines up to the deepest place. */
export function evenLevels(deepestMm: number): readonly number[] {
  const step = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5].find((mm) => deepestMm / mm <= 12) ?? 1;
  return Array.from({ length: Math.ceil(deepestMm / step) }, (_, i) => i * step).slice(1);
}

/** Few levels up to the deepest place, closer where it is shallow: the ladder is chosen so that four to six lines are drawn. */
export function contourLevels(deepestMm: number): readonly number[] {
  const ladders: readonly (readonly number[])[] = [
    [0.02, 0.04, 0.06, 0.08, 0.1],
    [0.05, 0.1, 0.15, 0.2, 0.25],
    [0.05, 0.1, 0.2, 0.3, 0.4, 0.5],
    [0.1, 0.2, 0.4, 0.6, 0.8, 1],
    [0.2, 0.5, 1, 1.5, 2, 2.5, 3],
  ];
  const ladder = ladders.find((levels) => levels.at(-1)! >= deepestMm) ?? ladders.at(-1)!;
  return ladder.filter((level) => level < deepestMm);
}
