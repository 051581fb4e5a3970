/** A rule is straight, and rests on the board. */
import { expect, test } from "vitest";
import type { Profile } from "../../../server/core/examination.ts";
import { layStraightedge } from "../../../web/chart/straightedge.ts";
import { fixtureExamination } from "../fixtureExamination.ts";

const profile = fixtureExamination("cello").profiles[1]!;

test("on a hollow board it reaches from end to end and shows the hollow", () => {
  const laid = layStraightedge(profile);
  expect([laid.from, laid.to]).toEqual([0, profile.xMm.length - 1]);
  expect(laid.gapMm).toBe(Math.max(...profile.straightedgeMm.map((z, i) => z - profile.measuredMm[i]!)));
});

test("on a humped board it stays straight and never sinks into the wood", () => {
  // Heights of a hump with a dip at x = 20; the bridging line follows the hump: 0, 3, (4), 5, 4, 0.
  const humped: Profile = {
    ...profile,
    xMm: [0, 10, 20, 30, 40, 50],
    measuredMm: [0, 3, 3.5, 5, 4, 0],
    straightedgeMm: [0, 3, 4, 5, 4, 0],
  };
  const laid = layStraightedge(humped);
  expect(laid.at).toBe(2);
  expect(laid.gapMm).toBe(0.5);
  expect(laid.heightsMm).toEqual([2, 3, 4, 5, 6, 7]);
  expect([laid.from, laid.to]).toEqual([1, 3]);
  laid.heightsMm.forEach((z, i) => {
    expect(z).toBeGreaterThanOrEqual(humped.measuredMm[i]!);
  });
});
