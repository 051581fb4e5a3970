/** Wear at each reading, and its uncertainty, by hand. Lengths in mm. */
import { describe, expect, test } from "vitest";
import type { Mark } from "../../../../server/core/readings/readings.ts";
import { heightMm } from "../../../../server/core/surface/idealSurface.ts";
import { comparedAt, wearAtReadings, wearUncertaintyMm } from "../../../../server/core/wear/wearAtReadings.ts";
import { near } from "../../../support/near.ts";
import { evenly, knownSurface, pointGauge, sevenLines, shapeWith, violin, wearAt } from "../plainBoards.ts";

const surface = knownSurface(shapeWith());
const places = sevenLines(violin, evenly(5, 265, 5));

test("wear is positive where wood is missing, negative on a hump, nothing on the surface", () => {
  const truth = [0.3, 0, -0.1];
  const { readings } = wearAt(places, surface, (_, i) => truth[i % 3]!);
  const wear = wearAtReadings({ stage: "compensated", readings }, surface);
  wear.readings.forEach(({ wearMm, unwornMm, xMm, yMm }, i) => {
    // Differences of heights near 10 mm.
    near(wearMm, truth[i % 3]!, 1e-14);
    expect(unwornMm).toBe(heightMm(surface.plan, surface.shape, xMm, yMm));
  });
});

test("its standard uncertainty holds noise, step and limit: 3, 4 and 12 make 13", () => {
  // Noise 0.003; a step of 0.004·√12 gives 0.004; a limit of 0.012·√3 gives 0.012.
  const gauge = { ...pointGauge, resolutionMm: 0.004 * Math.sqrt(12), errorLimitMm: 0.012 * Math.sqrt(3) };
  near(wearUncertaintyMm({ ...surface, noiseMm: 0.003 }, gauge, { xMm: 100, yMm: 3, setup: 0 }), 0.013, 1e-15);
});

test("the surface's own uncertainty at the place comes on top", () => {
  const covariance = surface.covariance.slice();
  // The height alone uncertain: by 0.004 everywhere.
  covariance[0] = 0.004 ** 2;
  near(
    wearUncertaintyMm({ ...surface, noiseMm: 0.003, covariance }, pointGauge, { xMm: 100, yMm: 3, setup: 0 }),
    0.005,
    1e-15,
  );
});

describe("a place read more than once", () => {
  const place = { xMm: 75, yMm: 4 };
  const read = (...rows: readonly { readonly wornMm: number; readonly mark: Mark | null }[]) => {
    const made = wearAt(
      rows.map(() => place),
      surface,
      (_, i) => rows[i]!.wornMm,
    );
    return comparedAt(made.readings.map((reading, i) => ({ ...reading, mark: rows[i]!.mark }))).places;
  };

  test("counts as its mean, re-read marks with the others", () => {
    const [mean, ...others] = read({ wornMm: 0.1, mark: null }, { wornMm: 0.2, mark: "check" });
    expect(others).toEqual([]);
    // Heights near 10: a few units in the sixteenth digit.
    near(mean!.mean.wearMm, 0.15, 1e-12);
    expect(mean!.repeats.length).toBe(2);
  });

  test("counts as the lowest spot near it where that was searched for", () => {
    const [lowest] = read(
      { wornMm: 0.1, mark: null },
      { wornMm: 0.31, mark: "lowest" },
      { wornMm: 0.29, mark: "lowest" },
    );
    near(lowest!.mean.wearMm, 0.3, 1e-12);
    expect(lowest!.repeats.length).toBe(2);
  });
});
