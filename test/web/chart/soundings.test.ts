/** Which readings stand on the chart as numbers, and which as marks. */
import { expect, test } from "vitest";
import { clearing } from "../../../web/chart/clearing.ts";
import { planScales } from "../../../web/chart/scales.ts";
import { noiseFloorMm, soundings } from "../../../web/chart/soundings.ts";
import { fixtureExamination } from "../fixtureExamination.ts";

const cello = fixtureExamination("cello");
const scales = planScales(cello.instrument, 960, { left: 40, right: 136, top: 46, bottom: 34 });
const shown = (examination: typeof cello, room = clearing()) => soundings(examination, "wear", scales, room, null);

test("a reading above its noise whose number has no room is a mark of its own, never the dot of one within its noise", () => {
  const floor = noiseFloorMm(cello);
  const crowded = {
    ...cello,
    points: cello.points.flatMap((p) =>
      [0, 6, 12].map((more) => ({ ...p, givenXMm: p.givenXMm + more, xMm: p.xMm + more })),
    ),
  };
  const marks = shown(crowded);
  expect(new Set(marks.map((mark) => mark.show))).toEqual(new Set(["number", "beside", "crowded", "noise"]));
  for (const mark of marks) expect(mark.show === "noise").toBe(mark.depthMm < floor);
});

test("a scan of 100,000 readings leaves some hundreds of marks, the deepest reading among them", () => {
  const { boardLengthMm, widthNutMm } = cello.instrument;
  const points = Array.from({ length: 100_000 }, (_, i) => {
    const xMm = ((i % 1000) / 999) * boardLengthMm.value;
    const yMm = (Math.floor(i / 1000) / 99 - 0.5) * widthNutMm.value;
    return { ...cello.points[0]!, row: i, givenXMm: xMm, givenYMm: yMm, xMm, yMm, cutMm: i === 54_321 ? 0.9 : 0.1 };
  });
  const wide = planScales(cello.instrument, 1600, { left: 40, right: 136, top: 46, bottom: 34 });
  const marks = soundings({ ...cello, points }, "cut", wide, clearing(), null);
  expect(marks.length).toBeLessThanOrEqual(700);
  expect(marks.length).toBeGreaterThan(100);
  expect(marks[0]).toMatchObject({ depthMm: 0.9, show: "number" });
});

test("the deepest of very many readings of pure noise is no find", () => {
  const floor = noiseFloorMm(cello);
  const point = cello.points[0]!;
  const at = (i: number, wearMm: number) => ({
    ...point,
    givenXMm: 302 + i / 50,
    xMm: 302 + i / 50,
    yMm: 0,
    wearMm,
  });
  // Of 140 normal deviates the greatest is expected at some 2.6 standard deviations: 1.3 of the floor of two.
  const noise = Array.from({ length: 140 }, (_, i) => at(i, i === 7 ? 1.3 * floor : 0));
  expect(shown({ ...cello, points: noise }).map((mark) => mark.show)).toEqual(["noise"]);
  expect(shown({ ...cello, points: [at(7, 1.3 * floor)] }).map((mark) => mark.show)).toEqual(["number"]);
});
