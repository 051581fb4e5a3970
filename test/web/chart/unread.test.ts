/** Unread ground: what no reading speaks for is hatched, what the bench meant to leave between is not. */
import { polygonContains } from "d3";
import { expect, test } from "vitest";
import type { Examination } from "../../../server/core/examination.ts";
import { halfWidthMm } from "../../../web/chart/board.ts";
import { unreadRings } from "../../../web/chart/unread.ts";
import { fixtureExamination } from "../fixtureExamination.ts";

const cello = fixtureExamination("cello");

/** Share of the board, from one place to another, that is drawn as unread: even-odd in the rings, on a raster of 4 by 1 mm. */
function unreadShare(examination: Examination, fromMm = 0, toMm = 580): number {
  const rings = unreadRings(examination).map((ring) => ring.map(([x, y]): [number, number] => [x, y]));
  let unread = 0;
  let all = 0;
  for (let x = fromMm + 1; x < toMm; x += 4) {
    for (let y = -31; y <= 31; y += 1) {
      if (Math.abs(y) >= halfWidthMm(examination.instrument, x)) continue;
      all += 1;
      if (rings.filter((ring) => polygonContains(ring, [x, y])).length % 2 === 1) unread += 1;
    }
  }
  return unread / all;
}

test("a full grid, wider towards the bridge, leaves no unread ground", () => {
  expect(unreadShare(cello)).toBe(0);
});

test("a third of the board without readings is unread, but for the ground beside its neighbours", () => {
  const points = cello.points.filter((point) => point.xMm < 150 || point.xMm > 350);
  expect(unreadShare({ ...cello, points }, 210, 270)).toBe(1);
  expect(unreadShare({ ...cello, points }, 0, 130)).toBe(0);
});

test("one missing reading is not unread ground, a missing patch is", () => {
  const missing = (rows: readonly number[]) => ({ ...cello, points: cello.points.filter((_, i) => !rows.includes(i)) });
  expect(unreadShare(missing([45]))).toBe(0);
  expect(unreadShare(missing([37, 38, 39, 44, 45, 46, 51, 52, 53]))).toBeGreaterThan(0.005);
});
