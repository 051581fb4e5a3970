/** Readings as the fit takes them: which are left out, and how a dense scan is thinned. Lengths in mm. */
import { describe, expect, test } from "vitest";
import { type FitReadings, fitReadings, thinned } from "../../../../server/core/surface/fitReadings.ts";
import { near } from "../../../support/near.ts";
import { readingsAt } from "../plainBoards.ts";

const level = () => ({ alongX: 0, alongY: 0 });

test("places searched for by hand for being low don't count for the surface; places read again do", () => {
  const made = readingsAt(
    [0, 50, 100].map((xMm) => ({ xMm, yMm: 3 })),
    (_, i) => 10 + i,
  );
  const marks = [null, "lowest", "check"] as const;
  const readings = { ...made, readings: made.readings.map((reading, i) => ({ ...reading, mark: marks[i]! })) };
  const { count, xMm, heightMm } = fitReadings(readings, 0, level);
  expect([count, [...xMm], [...heightMm]]).toEqual([2, [0, 100], [10, 12]]);
});

test("a ball of 2 on a slope of 3 in 4 across touches 1.2 beside its middle and stands 0.5 too high", () => {
  const readings = readingsAt([{ xMm: 80, yMm: 0 }], () => 10);
  const { yMm, heightMm } = fitReadings(readings, 2, () => ({ alongX: 0, alongY: 0.75 }));
  // s = √(1 + 9/16) = 5/4: y + 2·(3/4)/(5/4) = 1.2; z + 2 − 2/(5/4) = 10.4. Rounding.
  near(yMm[0]!, 1.2, 1e-15);
  near(heightMm[0]!, 10.4, 1e-14);
});

describe("a scan of 20,000 thinned to 4000", () => {
  const scan = (rows: number, columns: number): FitReadings => {
    const places = Array.from({ length: rows * columns }, (_, i) => ({
      xMm: Math.floor(i / columns),
      yMm: i % columns,
    }));
    return fitReadings(
      readingsAt(places, (_, i) => i),
      0,
      level,
    );
  };

  test("is about that many, each with its own place and height", () => {
    const kept = thinned(scan(200, 100), 4000);
    // The fractions of multiples of the golden ratio are as even as any: to a few in all.
    near(kept.count, 4000, 3);
    kept.heightMm.forEach((i, at) => {
      expect([kept.xMm[at], kept.yMm[at]]).toEqual([Math.floor(i / 100), i % 100]);
    });
  });

  test.each([10, 34, 55, 100])(
    "leaves none of its lines out and prefers none, %i lines to the crossline",
    (columns) => {
      const rows = 20_000 / columns;
      const kept = thinned(scan(Math.floor(rows), columns), 4000);
      const onLine = Array.from({ length: columns }, (_, y) => kept.yMm.filter((one) => one === y).length);
      const share = kept.count / columns;
      for (const [y, count] of onLine.entries()) near(count, share, 0.35 * share, `line ${y}`);
    },
  );

  test("of no more than asked for is left as it is", () => {
    const few = scan(5, 7);
    expect(thinned(few, 35)).toBe(few);
  });
});
