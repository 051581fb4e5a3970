/**
 * Readings as they are checked: their places and heights in mm, one array a quantity, in the order of the file.
 *
 * A scan's million readings pass through here as numbers; each becomes a reading of its own only when it is asked for (`at`).
 */
import type { Reading } from "./readings.ts";
import type { ReadingsFile } from "./readingsFile.ts";

export type PlacedReadings = {
  readonly count: number;
  readonly xMm: Float64Array;
  readonly yMm: Float64Array;
  readonly gaugeMm: Float64Array;
  at(index: number): Reading;
};

/** Room for every reading of the file, to be filled in by index; `lineNames` by the file's own index of names. */
export function placedReadings(
  { readings }: Pick<ReadingsFile, "readings">,
  lineNames: readonly string[],
): PlacedReadings {
  const { count } = readings;
  const [xMm, yMm, gaugeMm] = [new Float64Array(count), new Float64Array(count), new Float64Array(count)];
  return {
    count,
    xMm,
    yMm,
    gaugeMm,
    at(index) {
      const { row, nameIndex, mark, setup } = readings.at(index);
      return {
        row,
        xMm: xMm[index],
        yMm: yMm[index],
        gaugeMm: gaugeMm[index],
        line: nameIndex < 0 ? null : lineNames[nameIndex],
        mark,
        setup,
      };
    },
  };
}
