/** Tip compensation: the identity, balls on arcs and planes, and how far a ball reaches into a groove. Lengths in mm. */
import { describe, expect, test } from "vitest";
import { compensateTip, reachMm } from "../../../../server/core/compensation/tip.ts";
import { near } from "../../../support/near.ts";
import { readingsAt } from "../plainBoards.ts";

const one = (xMm: number, yMm: number, gaugeMm: number) => readingsAt([{ xMm, yMm }], () => gaugeMm);

describe("a tip", () => {
  test("that is a point changes nothing", () => {
    const readings = one(100, 12.3, 7.65);
    const steep = () => ({ alongX: 0.4, alongY: -0.7 });
    expect(compensateTip(readings, 0, steep)).toEqual({
      stage: "compensated",
      readings: [
        {
          row: 2,
          givenXMm: 100,
          givenYMm: 12.3,
          xMm: 100,
          yMm: 12.3,
          heightMm: 7.65,
          line: null,
          mark: null,
          setup: 0,
        },
      ],
    });
  });

  test("on level wood touches under its centre and reads true", () => {
    const [reading] = compensateTip(one(50, 3, 9), 1.5, () => ({ alongX: 0, alongY: 0 })).readings;
    expect(reading).toMatchObject({ xMm: 50, yMm: 3, heightMm: 9 });
  });

  test("on a slope of 0.4 reads 0.116 high", () => {
    // r(√(1 + p²) − 1) = 1.5 · 0.07703 = 0.1155.
    const slope = () => ({ alongX: 0, alongY: 0.4 });
    const [reading] = compensateTip(one(0, 0, 0), 1.5, slope).readings;
    near(reading!.heightMm - 0.4 * reading!.yMm, -1.5 * (Math.sqrt(1.16) - 1), 1e-14);
    near(-(reading!.heightMm - 0.4 * reading!.yMm), 0.116, 5e-4);
  });

  test("on any plane is put back on the plane exactly", () => {
    for (const [p, q] of [
      [0.01, -0.35],
      [-0.2, 0.6],
      [0.5, 0.5],
    ] as const) {
      for (const radius of [0.5, 1.5, 3]) {
        const plane = (x: number, y: number) => 8 + p * x + q * y;
        const centre = plane(40, 5) + radius * Math.sqrt(1 + p * p + q * q);
        const [reading] = compensateTip(one(40, 5, centre - radius), radius, () => ({ alongX: p, alongY: q })).readings;
        // Exact but for rounding of heights near 30 mm.
        near(reading!.heightMm, plane(reading!.xMm, reading!.yMm), 1e-13);
        near(Math.hypot(reading!.xMm - 40, reading!.yMm - 5, reading!.heightMm - centre), radius, 1e-13);
      }
    }
  });

  // A ball of radius r on an arc R runs its centre on R + r: it reads √((R + r)² − y²) − r where the arc has √(R² − y²).
  test.each([
    [15.4, 0.108],
    [21, 0.222],
  ])("of 1.5 on an arc of 42 reads high at %f off centre by %f, and is put back on the arc", (yMm, highMm) => {
    const [R, r] = [42, 1.5];
    const read = Math.sqrt((R + r) ** 2 - yMm ** 2) - r;
    // Printed to three decimals.
    near(read - Math.sqrt(R ** 2 - yMm ** 2), highMm, 5e-4);
    const slopes = (_: number, y: number) => ({ alongX: 0, alongY: -y / Math.sqrt(R ** 2 - y ** 2) });
    const [reading] = compensateTip(one(10, yMm, read), r, slopes).readings;
    // Touches at y·R/(R + r). Each look at the slope brings it r/R = 1/28 nearer; three leave some 3e-6 of 0.7 mm aside,
    // of which hardly any shows in height, since the path there follows the arc.
    near(reading!.yMm, (yMm * R) / (R + r), 1e-3);
    near(reading!.heightMm, Math.sqrt(R ** 2 - reading!.yMm ** 2), 1e-4);
  });
});

describe("a ball of 1.5 in a groove", () => {
  test.each([
    [0.6, 0.03],
    [1.0, 0.086],
    [1.5, 0.201],
  ])("%f wide sinks %f below its rims", (widthMm, deepMm) => {
    // Printed to three decimals.
    near(reachMm(1.5, widthMm), deepMm, 5e-4);
  });

  test("as wide as itself or wider is not held up; in one of no width it does not sink", () => {
    expect(reachMm(1.5, 3)).toBe(Number.POSITIVE_INFINITY);
    expect(reachMm(1.5, 4)).toBe(Number.POSITIVE_INFINITY);
    expect(reachMm(1.5, 0)).toBe(0);
    near(reachMm(1.5, 2.999_999_999), 1.5, 1e-4);
  });
});
