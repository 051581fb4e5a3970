/**
 * Which points go out with an examination: all, none, or of a scan the few that a drawing can show.
 *
 * A hundred thousand points are 20 megabytes that no page can draw. Of more than five thousand the few are, in each of some four
 * thousand cells of the board (three times as long as wide, like the readings' own pattern), the one nearest to its middle, for what
 * the board is there; the most worn and the proudest one, where they stand out of what chance makes of so many (√(2 ln n) standard
 * deviations, the usual bound for the greatest of n normal deviates); and of all the board the deepest cut. Lengths in mm.
 */
import type { Examination, Point, PointsTold } from "../core/examination.ts";

export const fewEnough = 5_000;

const cellsOnBoard = 4_000;
const timesAsLong = 3;

export function withPoints(examination: Examination, wanted: PointsTold): Examination {
  const { points, readings } = examination;
  if (wanted === "all" || (wanted === "few" && points.length <= fewEnough)) return examination;
  return {
    ...examination,
    points: wanted === "none" ? [] : fewOf(examination),
    readings: { ...readings, pointsTold: wanted },
  };
}

type InCell = { middle: Point; offMiddle: number; mostWorn: Point; proudest: Point };

/** In the order of the file. */
function fewOf({ points, instrument, surface }: Examination): readonly Point[] {
  const areaMm2 = (instrument.boardLengthMm.value * (instrument.widthNutMm.value + instrument.widthEndMm.value)) / 2;
  const acrossMm = Math.sqrt(areaMm2 / cellsOnBoard / timesAsLong);
  const alongMm = timesAsLong * acrossMm;
  const rows = Math.ceil(instrument.widthEndMm.value / acrossMm) + 2;
  const byChanceMm = (surface.noiseMm ?? 0) * Math.sqrt(2 * Math.log(points.length));
  const cells = new Map<number, InCell>();
  let deepestCut = points[0];
  for (const point of points) {
    const [column, row] = [Math.round(point.xMm / alongMm), Math.round(point.yMm / acrossMm)];
    const offMiddle = Math.hypot(point.xMm / alongMm - column, point.yMm / acrossMm - row);
    const cell = cells.get(column * rows + row);
    if (cell === undefined) {
      cells.set(column * rows + row, { middle: point, offMiddle, mostWorn: point, proudest: point });
    } else {
      if (offMiddle < cell.offMiddle) {
        cell.middle = point;
        cell.offMiddle = offMiddle;
      }
      if (point.wearMm > cell.mostWorn.wearMm) cell.mostWorn = point;
      if (point.wearMm < cell.proudest.wearMm) cell.proudest = point;
    }
    if ((point.cutMm ?? 0) > (deepestCut.cutMm ?? 0)) deepestCut = point;
  }
  const kept = new Set([deepestCut]);
  for (const { middle, mostWorn, proudest } of cells.values()) {
    kept.add(middle);
    if (mostWorn.wearMm > byChanceMm) kept.add(mostWorn);
    if (-proudest.wearMm > byChanceMm) kept.add(proudest);
  }
  return points.filter((point) => kept.has(point));
}
