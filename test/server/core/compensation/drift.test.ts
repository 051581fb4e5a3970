/** Drift of the gauge: what marks read again tell, when it is taken out, and what it leaves uncertain. Lengths in mm. */
import { describe, expect, test } from "vitest";
import { withoutDrift } from "../../../../server/core/compensation/drift.ts";
import { tQuantile } from "../../../../server/core/maths/quantiles.ts";
import { seededRandom } from "../../../../server/core/maths/seededRandom.ts";
import type { Mark, Reading, Readings } from "../../../../server/core/readings/readings.ts";
import { near } from "../../../support/near.ts";
import { pointGauge } from "../plainBoards.ts";

type Row = {
  readonly at: number;
  readonly across?: number;
  readonly mm: number;
  readonly mark?: Mark;
  readonly setup?: number;
};

/** Readings along one line, one a row: where along, what the gauge showed. */
function read(rows: readonly Row[], setups: readonly string[] = [""]): Readings {
  const readings = rows.map(
    ({ at, across = 0, mm, mark = null, setup = 0 }, i): Reading => ({
      row: i + 2,
      xMm: at,
      yMm: across,
      gaugeMm: mm,
      line: null,
      mark,
      setup,
    }),
  );
  return { stage: "checked", readings, setups };
}

const heights = ({ readings }: Readings) => readings.map(({ gaugeMm }) => gaugeMm);

/** Ten places, then three of them again, over a gauge that rises evenly by `driftMm` in all; `scatterMm` by turns on the checks. */
function drifting(driftMm: number, scatterMm: readonly number[] = [0, 0, 0]): Readings {
  const places = [...Array(10).keys()].map((i) => ({ at: 10 * i, mm: Math.sin(i) }));
  const again = [1, 4, 8].map((i, k) => ({ ...places[i]!, mm: places[i]!.mm + scatterMm[k]!, mark: "check" as const }));
  const rows = [...places, ...again];
  return read(rows.map((row, i) => ({ ...row, mm: row.mm + (driftMm * i) / (rows.length - 1) })));
}

// What is exact but for the rounding of sums of a dozen numbers near 1.
const exactMm = 1e-12;

describe("the drift of a gauge", () => {
  test("is nothing known where nothing was read again", () => {
    const readings = read([
      { at: 10, mm: 1 },
      { at: 20, mm: 2 },
    ]);
    expect(withoutDrift(readings, pointGauge)).toEqual({ readings, drift: null, driftUMm: 0 });
  });

  test("of 0.06 mm over the file is found by three checks and taken out of every reading", () => {
    const { readings, drift } = withoutDrift(drifting(0.06), pointGauge);
    expect(drift).toMatchObject({ checks: 3, corrected: true });
    near(drift?.mm ?? Number.NaN, 0.06, exactMm);
    heights(readings).forEach((mm, i) => {
      near(mm, heights(drifting(0))[i]!, exactMm);
    });
  });

  test("downwards is negative", () => {
    near(withoutDrift(drifting(-0.06), pointGauge).drift?.mm ?? Number.NaN, -0.06, exactMm);
  });

  test("that is no more than scatter is told and left", () => {
    const given = drifting(0, [0.01, -0.01, 0.008]);
    const { readings, drift } = withoutDrift(given, pointGauge);
    expect(drift).toMatchObject({ checks: 3, corrected: false });
    expect(readings.readings).toEqual(given.readings);
  });

  test("is the line through zero of the differences against the time between, by hand", () => {
    // Places 0 and 1 read at times 0 and 1/3, again at 2/3 and 1: differences 0.05 and 0.07 over 2/3 each.
    // b = Σ Δt·d / Σ Δt² = (2/3)(0.12) / (8/9) = 0.09.
    const { drift } = withoutDrift(
      read([
        { at: 0, mm: 1 },
        { at: 50, mm: 2 },
        { at: 0, mm: 1.05, mark: "check" },
        { at: 50, mm: 2.07, mark: "check" },
      ]),
      pointGauge,
    );
    near(drift?.mm ?? Number.NaN, 0.09, exactMm);
    expect(drift?.corrected).toBe(true);
  });

  test("leaves what its slope leaves uncertain: u(b)/√6 where it was taken out", () => {
    // The differences above less b·Δt: ±0.01, so the squares left are 2 · 0.01²/2 = 0.0001, one degree of freedom beside the
    // four of the usual 0.01 mm: s = √((0.0001 + 4 · 0.0001)/5) = 0.01. Σ (t − mean)² = 2 · 2 · (1/3)² = 4/9: u(b) = 0.015.
    const { driftUMm } = withoutDrift(
      read([
        { at: 0, mm: 1 },
        { at: 50, mm: 2 },
        { at: 0, mm: 1.05, mark: "check" },
        { at: 50, mm: 2.07, mark: "check" },
      ]),
      pointGauge,
    );
    near(driftUMm, 0.015 / Math.sqrt(6), exactMm);
  });

  test("leaves itself besides where it was not taken out", () => {
    const { drift, driftUMm } = withoutDrift(drifting(0.01), pointGauge);
    expect(drift?.corrected).toBe(false);
    const still = withoutDrift(drifting(0), pointGauge);
    near(driftUMm ** 2 - still.driftUMm ** 2, 0.01 ** 2 / 6, exactMm);
  });

  test("told by one check alone is taken out from 0.04 mm on", () => {
    // u(b) = 0.01 · √2 with the usual scatter alone, four degrees: 2.776 · 0.01414 = 0.0393 (t factor: JCGM 100:2008, table G.2).
    const leastMm = tQuantile(0.975, 4) * 0.01 * Math.sqrt(2);
    const withEnd = (mm: number) =>
      withoutDrift(
        read([
          { at: 0, mm: 1 },
          { at: 50, mm: 2 },
          { at: 0, mm: 1 + mm, mark: "check" },
        ]),
        pointGauge,
      ).drift?.corrected;
    near(leastMm, 0.0393, 5e-5);
    expect([withEnd(leastMm - 1e-6), withEnd(leastMm + 1e-6)]).toEqual([false, true]);
  });

  test("has to be larger under a gauge of coarser steps", () => {
    const coarse = { ...pointGauge, resolutionMm: 0.1 };
    expect(withoutDrift(drifting(0.04), pointGauge).drift?.corrected).toBe(true);
    expect(withoutDrift(drifting(0.04), coarse).drift?.corrected).toBe(false);
  });

  test("belongs to its set-up: the others stay as they are, and the largest is told", () => {
    const rows: Row[] = [
      { at: 0, mm: 1, setup: 0 },
      { at: 50, mm: 2, setup: 0 },
      { at: 0, mm: 5, setup: 1 },
      { at: 50, mm: 6, setup: 1 },
      { at: 0, mm: 5.08, setup: 1, mark: "check" },
      { at: 0, mm: 1.01, setup: 0, mark: "check" },
    ];
    const { readings, drift } = withoutDrift(read(rows, ["a", "b"]), pointGauge);
    expect(drift?.checks).toBe(2);
    near(drift?.mm ?? Number.NaN, 0.08, exactMm);
    [1, 2, 5, 5.96, 5, 1.01].forEach((mm, i) => {
      near(heights(readings)[i]!, mm, exactMm);
    });
  });

  test("is not told by a check of a place that only another set-up has read", () => {
    const rows: Row[] = [
      { at: 0, mm: 1, setup: 0 },
      { at: 50, mm: 2, setup: 0 },
      { at: 0, mm: 9, setup: 1, mark: "check" },
    ];
    expect(withoutDrift(read(rows, ["a", "b"]), pointGauge).drift).toBeNull();
  });

  test("counts as checks what was read again, not the first reading, even if that bears the mark", () => {
    const rows: Row[] = [
      { at: 0, mm: 1, mark: "check" },
      { at: 50, mm: 2 },
      { at: 0, mm: 1.1, mark: "check" },
    ];
    expect(withoutDrift(read(rows), pointGauge).drift).toMatchObject({ checks: 1, corrected: true });
  });

  test("is held for drift where there is none in one file of twenty, and found within what it leaves uncertain", () => {
    // 500 files of drifts from 0 to 0.1 mm, noise 0.01 mm as is usual. One in twenty, give or take 2 %: two standard deviations of
    // a share of 500.
    const random = seededRandom(7);
    const files = 500;
    let [alarms, missed] = [0, 0];
    for (let k = 0; k < files; k++) {
      const noisy = (driftMm: number) => {
        const { readings, ...rest } = drifting(driftMm);
        return {
          ...rest,
          readings: readings.map((one) => ({ ...one, gaugeMm: one.gaugeMm + 0.01 * random.normal() })),
        };
      };
      if (withoutDrift(noisy(0), pointGauge).drift?.corrected) alarms += 1;
      const trueMm = 0.1 * random.uniform();
      const { drift, driftUMm } = withoutDrift(noisy(trueMm), pointGauge);
      const leftMm = trueMm - (drift?.corrected ? drift.mm : 0);
      // What is left is a drift b, of which a difference of two heights has b/√6 in the mean square.
      if (Math.abs(leftMm) / Math.sqrt(6) > 2 * driftUMm) missed += 1;
    }
    expect(alarms / files).toBeLessThan(0.07);
    expect(missed / files).toBeLessThan(0.07);
  });

  test("is not told by a place searched for by hand", () => {
    const rows: Row[] = [
      { at: 0, mm: 0.7, mark: "lowest" },
      { at: 50, mm: 2 },
      { at: 0, mm: 1, mark: "check" },
    ];
    expect(withoutDrift(read(rows), pointGauge).drift).toBeNull();
  });

  test.each([
    [0, 0.05, 1],
    [0, -0.05, 1],
    [0, 0.06, 0],
    [0, -0.06, 0],
    [0.04, 0.04, 1],
    [0.06, 0, 0],
    [-5, 0, 0],
  ])("is told by a check that lies %f mm across and %f mm along off the place: %i", (acrossMm, alongMm, checks) => {
    for (const atMm of [100, 100.02, 100.04]) {
      const rows: Row[] = [
        { at: atMm, mm: 1 },
        { at: 50, mm: 2 },
        { at: atMm + alongMm, across: acrossMm, mm: 1.1, mark: "check" },
      ];
      expect(withoutDrift(read(rows), pointGauge).drift?.checks ?? 0).toBe(checks);
    }
  });
});
