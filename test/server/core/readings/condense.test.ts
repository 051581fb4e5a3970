import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../../data/make/random.ts";
import type { Instrument } from "../../../../server/core/board/instrument.ts";
import { halfWidthMm } from "../../../../server/core/board/outline.ts";
import { type Condensed, condense, mostSingly } from "../../../../server/core/readings/condense.ts";
import { placedReadings } from "../../../../server/core/readings/placedReadings.ts";
import { readingColumns } from "../../../../server/core/readings/readingColumns.ts";
import type { Mark } from "../../../../server/core/readings/readings.ts";
import { near } from "../../../support/near.ts";
import { instrumentFrom } from "../board/boards.ts";

type Place = {
  readonly xMm: number;
  readonly yMm: number;
  readonly gaugeMm: number;
  readonly mark?: Mark;
  readonly setup?: number;
};

const violin = instrumentFrom({ instrument: "violin" });

function condensed(places: readonly Place[], instrument: Instrument = violin): Condensed {
  const readings = readingColumns();
  places.forEach(({ xMm, yMm, gaugeMm, mark = null, setup = 0 }, i) => {
    readings.add({ row: i + 2, column: 3, x: xMm, y: yMm, nameIndex: -1, height: gaugeMm, mark, setup });
  });
  const placed = placedReadings({ readings }, []);
  places.forEach(({ xMm, yMm, gaugeMm }, i) => {
    placed.xMm[i] = xMm;
    placed.yMm[i] = yMm;
    placed.gaugeMm[i] = gaugeMm;
  });
  return condense(placed, instrument);
}

/** Places spread evenly at random over the board, edges included. */
function scattered(count: number, instrument: Instrument, heightMm: (xMm: number, yMm: number) => number): Place[] {
  const random = seededRandom(11);
  return Array.from({ length: count }, () => {
    const xMm = random.between(0, instrument.boardLengthMm.value);
    const half = halfWidthMm(instrument, xMm);
    const yMm = random.between(-half, half);
    return { xMm, yMm, gaugeMm: heightMm(xMm, yMm) };
  });
}

describe("a scan brought together", () => {
  // R and hollow at the small end of what boards have: the sharpest camber over the widest cell. Common practice, no source.
  test.each([
    ["violin", 38, 0.8],
    ["viola", 38, 1],
    ["cello", 58, 1.8],
    ["bass", 75, 3],
  ])(
    "of a %s loses a third of a thousandth of a millimetre of camber, hollow and slope",
    (kind, radiusMm, hollowMm) => {
      const instrument = instrumentFrom({ instrument: kind });
      const lengthMm = instrument.boardLengthMm.value;
      const heightMm = (xMm: number, yMm: number): number => {
        const u = xMm / lengthMm;
        return Math.sqrt(radiusMm ** 2 - yMm ** 2) - radiusMm + 0.02 * xMm - 4 * hollowMm * u * (1 - u);
      };
      const { readings } = condensed(scattered(150_000, instrument, heightMm), instrument);
      const offsMm = readings.map(({ xMm, yMm, gaugeMm }) => gaugeMm - heightMm(xMm, yMm));
      const meanSquare = offsMm.reduce((sum, off) => sum + off ** 2, 0) / offsMm.length;
      // (w²/12)/(2R) with w from 0.3 mm (violin) to 0.7 mm (bass) is 0.0001 to 0.0003.
      near(Math.sqrt(meanSquare), 0, 0.0003, "root of the mean square");
      // Readings at both rims of a cell and none between: w²/8R, here of the widest; none of these cells is quite so.
      near(Math.max(...offsMm.map(Math.abs)), 0, 0.0015, "worst cell");
    },
  );

  test("keeps no more than some forty thousand places, however many were read", () => {
    const { readings } = condensed(scattered(400_000, violin, () => 0));
    expect(readings.length).toBeLessThan(44_000);
    // Forty thousand fit the board; those that its edge cuts hold fewer readings, and count as well.
    expect(readings.length).toBeGreaterThan(36_000);
    expect(mostSingly).toBe(100_000);
  });

  test("of fifty set-ups over one another is brought together in larger cells", () => {
    const scan = scattered(300_000, violin, () => 10).map((place, i) => ({ ...place, setup: i % 50 }));
    const { readings } = condensed(scan);
    expect(readings.length).toBeLessThanOrEqual(mostSingly);
    expect(new Set(readings.map(({ setup }) => setup)).size).toBe(50);
  });

  test("scatters less by the root of how many were brought together", () => {
    const random = seededRandom(5);
    const { readings } = condensed(
      Array.from({ length: 90_000 }, (_, i) => ({
        xMm: 50 + 2 * (i % 100) + 0.1,
        yMm: 0.1,
        gaugeMm: 10 + 0.02 * random.normal(),
      })),
    );
    const sdMm = Math.sqrt(readings.reduce((sum, { gaugeMm }) => sum + (gaugeMm - 10) ** 2, 0) / readings.length);
    // 100 cells of 900 readings: 0.02/√900; a standard deviation of 100 values is good to 1/√200, three times that taken.
    expect(readings.length).toBe(100);
    near(sdMm, 0.02 / 30, (3 / Math.sqrt(200)) * (0.02 / 30));
  });
});

describe("readings in one cell", () => {
  const here = { xMm: 100.1, yMm: 0.1 };

  test("become one, at their mean place and height, with the row of the first", () => {
    const { readings } = condensed([
      { ...here, gaugeMm: 10 },
      { xMm: 100.3, yMm: 0.2, gaugeMm: 10.4 },
    ]);
    expect(readings.map(({ row }) => row)).toEqual([2]);
    const [only] = readings;
    // Rounding of a sum of two.
    near(only.xMm, 100.2, 1e-9);
    near(only.yMm, 0.15, 1e-9);
    near(only.gaugeMm, 10.2, 1e-9);
  });

  test("stay apart where the rail was set up anew between them", () => {
    const { readings } = condensed([
      { ...here, gaugeMm: 10 },
      { ...here, gaugeMm: 10.5, setup: 1 },
      { ...here, gaugeMm: 10.1 },
    ]);
    expect(readings.map(({ row, setup, gaugeMm }) => [row, setup, gaugeMm])).toEqual([
      [2, 0, 10.05],
      [3, 1, 10.5],
    ]);
  });

  test("stay by themselves where they are marked", () => {
    const { readings } = condensed([
      { ...here, gaugeMm: 10 },
      { ...here, gaugeMm: 9.7, mark: "lowest" },
      { ...here, gaugeMm: 10.1, mark: "check" },
    ]);
    expect(readings.map(({ mark, gaugeMm }) => [mark, gaugeMm])).toEqual([
      [null, 10],
      ["lowest", 9.7],
      ["check", 10.1],
    ]);
  });

  test("don't take in one that stands a millimetre off them: it stays by itself", () => {
    const { readings, slips } = condensed([10, 8.9, 10.02, 10.01].map((gaugeMm) => ({ ...here, gaugeMm })));
    expect(readings.map(({ row }) => row)).toEqual([2, 3]);
    near(readings[0].gaugeMm, 10.01, 1e-9);
    expect(readings[1].gaugeMm).toBe(8.9);
    expect(slips).toEqual([]);
  });

  test("show a slip of the pen, more than ten millimetres off", () => {
    const { slips } = condensed([10, 10.02, 99, 10.01].map((gaugeMm) => ({ ...here, gaugeMm })));
    expect(slips).toEqual([{ at: 2, neighbours: [0, 1] }]);
  });

  test("come in the order in which their cells were first met", () => {
    const { readings } = condensed([200, 10, 200.1, 100, 10.1].map((xMm) => ({ xMm, yMm: 0.1, gaugeMm: 10 })));
    expect(readings.map(({ row }) => row)).toEqual([2, 3, 5]);
  });
});
