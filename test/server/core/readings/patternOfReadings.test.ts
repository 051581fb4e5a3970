/** The pattern of the readings: crosslines and lines as a bench lays them, and a scan that has none. */
import { expect, test } from "vitest";
import { patternOfReadings } from "../../../../server/core/readings/patternOfReadings.ts";
import type { Readings } from "../../../../server/core/readings/readings.ts";
import { near } from "../../../support/near.ts";
import { instrumentFrom } from "../board/boards.ts";

const violin = instrumentFrom({ instrument: "violin" });

function readingsAt(places: readonly (readonly [xMm: number, yMm: number])[]): Readings {
  return {
    stage: "checked",
    readings: places.map(([xMm, yMm], i) => ({ row: i + 2, xMm, yMm, gaugeMm: 0, line: null, mark: null, setup: 0 })),
    setups: [""],
  };
}

test("places along within a millimetre and a half are one crossline, at their mean", () => {
  const xs = [5, 5.4, 36, 68, 109, 150, 200, 265];
  const { crosslinesMm, lines } = patternOfReadings(
    readingsAt(xs.flatMap((x) => [-6, 0, 6].map((y) => [x, y]))),
    violin,
  );
  expect(crosslinesMm).toHaveLength(7);
  near(crosslinesMm[0]!, 5.2, 1e-12);
  expect(lines).toBe(3);
});

test("a scan whose rows run into each other has thirteen evenly spaced crosslines stand in", () => {
  const rows = Array.from({ length: 500 }, (_, i) => 5 + (i * 260) / 499);
  const { crosslinesMm } = patternOfReadings(
    readingsAt(rows.flatMap((x) => [-6, -3, 0, 3, 6].map((y) => [x, y]))),
    violin,
  );
  expect(crosslinesMm).toHaveLength(13);
  near(crosslinesMm[0]!, 5, 1e-9);
  near(crosslinesMm[12]!, 265, 1e-9);
});

test("so has a scan of scattered places", () => {
  const scattered = Array.from(
    { length: 60 },
    (_, i) => [5 + ((i * 97) % 260) + i * 1e-3, ((i * 7) % 13) - 6] as const,
  );
  expect(patternOfReadings(readingsAt(scattered), violin).crosslinesMm).toHaveLength(13);
});

test("a place searched for by hand makes neither a crossline nor a line", () => {
  const grid = readingsAt([5, 68, 150, 200, 265].flatMap((x) => [-6, 0, 6].map((y) => [x, y] as const)));
  const [low] = readingsAt([[80, 3.3]]).readings;
  const withLow = { ...grid, readings: [...grid.readings, { ...low!, mark: "lowest" as const }] };
  expect(patternOfReadings(withLow, violin)).toEqual(patternOfReadings(grid, violin));
});
