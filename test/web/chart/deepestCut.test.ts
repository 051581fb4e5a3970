/** The one deepest cut that is marked on the planing map. */
import { expect, test } from "vitest";
import { halfWidthMm } from "../../../web/chart/board.ts";
import { deepestCutOf } from "../../../web/chart/deepestCut.ts";
import { fixtureExamination } from "../fixtureExamination.ts";

const cello = fixtureExamination("cello");
const planing = cello.planing!;
const most = Math.max(...cello.points.map((point) => point.cutMm!));
const withoutMaps = { ...cello, maps: null };
const planned = (change: Partial<typeof planing>) => ({ ...withoutMaps, planing: { ...planing, ...change } });

test("it is the reading with the largest cut", () => {
  const plan = planned({ planeOffMm: { ...planing.planeOffMm, ofReadings: most } });
  const deepest = deepestCutOf(plan)!;
  expect(deepest).toMatchObject({ cutMm: most, isRead: true });
  expect(cello.points).toContainEqual(
    expect.objectContaining({ xMm: deepest.xMm, yMm: deepest.yMm, cutMm: deepest.cutMm }),
  );
});

test("where the plan is governed by an edge that nobody can read, it is there, and said to be at the edge", () => {
  const xMm = cello.sections[5]!.xMm;
  const edge = { xMm, yMm: -halfWidthMm(cello.instrument, xMm), governs: "depth" as const };
  const ofReadings = most + 0.02;
  const plan = planned({ governedBy: [edge], planeOffMm: { ...planing.planeOffMm, ofReadings } });
  expect(deepestCutOf(plan)).toEqual({ xMm, yMm: edge.yMm, cutMm: ofReadings, isRead: false, isAtEdge: true });
});

test("ground beyond the last crossline, where the plan counts no cut, is never it", () => {
  const maps = cello.maps!;
  const last = cello.sections.at(-1)!.xMm;
  const beyond = maps.xMm.map((x) => x > last);
  const cutMm = maps.cutMm.map((row) => row.map((cut, k) => (cut === null ? null : beyond[k] ? 9 : 0)));
  expect(beyond).toContain(true);
  expect(deepestCutOf({ ...planned({ spares: "thinnest place" }), maps: { ...maps, cutMm } })).toMatchObject({
    cutMm: most,
  });
});

test("without a plan there is none", () => {
  expect(deepestCutOf({ ...cello, planing: null })).toBeNull();
});
