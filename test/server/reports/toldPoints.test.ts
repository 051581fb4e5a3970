import { expect, test } from "vitest";
import { seededRandom } from "../../../data/make/random.ts";
import { halfWidthMm } from "../../../server/core/board/outline.ts";
import type { Examination, Point } from "../../../server/core/examination.ts";
import { fewEnough, withPoints } from "../../../server/reports/toldPoints.ts";
import { smallExamination } from "./smallExamination.ts";

const noiseMm = 0.01;

/** Pure noise all over the board, but for what `wearAt` says of a place by its index. */
function scanned(count: number, wearAt: (index: number) => number | null = () => null): Examination {
  const { instrument, surface, readings } = smallExamination;
  const random = seededRandom(3);
  const points = Array.from({ length: count }, (_, i): Point => {
    const xMm = random.between(0, instrument.boardLengthMm.value);
    const half = halfWidthMm(instrument, xMm);
    const yMm = random.between(-half, half);
    const wearMm = wearAt(i) ?? noiseMm * random.normal();
    return {
      row: i + 2,
      givenXMm: xMm,
      givenYMm: yMm,
      xMm,
      yMm,
      heightMm: 0,
      unwornMm: wearMm,
      wearMm,
      cutMm: 0.3 - wearMm,
    };
  });
  return { ...smallExamination, points, readings: { ...readings, count }, surface: { ...surface, noiseMm } };
}

test("all points are the examination as it is", () => {
  const examination = scanned(20_000);
  expect(withPoints(examination, "all")).toBe(examination);
});

test("none leaves out the points, says so, and changes nothing else", () => {
  const examination = scanned(100);
  expect(withPoints(examination, "none")).toEqual({
    ...examination,
    points: [],
    readings: { ...examination.readings, pointsTold: "none" },
  });
});

test("few of a bench's readings are all of them", () => {
  const examination = scanned(fewEnough);
  expect(withPoints(examination, "few")).toBe(examination);
});

test.each([20_000, 200_000])(
  "few of a scan of %i are some thousands all over the board, in the order of the file",
  (count) => {
    const { points, readings } = withPoints(scanned(count), "few");
    expect(readings.pointsTold).toBe("few");
    expect(readings.count).toBe(count);
    expect(points.length).toBeGreaterThan(3_500);
    expect(points.length).toBeLessThan(6_000);
    expect(points.every(({ row }, i) => i === 0 || row > points[i - 1].row)).toBe(true);
  },
);

test("few show the board without bias: those kept of pure noise are not the deepest of their neighbours", () => {
  const { points } = withPoints(scanned(100_000), "few");
  const meanMm = points.reduce((sum, { wearMm }) => sum + wearMm, 0) / points.length;
  // The mean of 4,000 readings of noise 0.01 is good to 0.00016; three times that.
  expect(Math.abs(meanMm)).toBeLessThan(0.0005);
});

test("few hold every lone pit and hump that stands out", () => {
  const pits = new Set([777, 40_001, 99_999]);
  const humps = new Set([5, 60_000]);
  const examination = scanned(100_000, (i) => (pits.has(i) ? 0.2 : humps.has(i) ? -0.15 : null));
  const { points } = withPoints(examination, "few");
  const rows = new Set(points.map(({ row }) => row));
  for (const index of [...pits, ...humps]) expect(rows.has(index + 2)).toBe(true);
});

test("few hold the deepest cut, though it lies where nothing is worn or proud", () => {
  const examination = scanned(100_000);
  // Not the one nearest to the middle of any cell, but for a chance of one in 25.
  const points = examination.points.map((point, i) => (i === 4_321 ? { ...point, cutMm: 0.9 } : point));
  expect(withPoints({ ...examination, points }, "few").points.some(({ row }) => row === 4_323)).toBe(true);
});
