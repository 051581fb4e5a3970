/**
 * Heights along one line only -> its hollow: what a straightedge over the whole board would show.
 *
 * Along a line an unworn board is height + slope·u − h·H(u), a camber that the line fans out over being part of h; H is that of the
 * ideal surface with its deepest point as set, give or take 0.06. Which readings may be worn is weighed over all likely ways. A
 * hump is a negative h.
 *
 * in: places along and heights, mm -> out: the hollow, and the wear at each reading, positive where wood is missing.
 */
import { aboutNothing, foretold } from "../maths/normalKnowledge.ts";
import { hollowShare } from "../surface/idealSurface.ts";
import { coverageFactor, type Quantity } from "../units.ts";
import { waysOfWear } from "./waysOfWear.ts";

export type Height = { readonly xMm: number; readonly heightMm: number };

export type HeightsAlongLine = {
  readonly hollowMm: Quantity;
  readonly deepestAtMm: number;
  /** In the order given. */
  readonly wearMm: readonly Quantity[];
  readonly unwornMm: readonly number[];
};

const deepestSpread = 0.06;
const mostRounds = 20;
const stillMm = 1e-5;

/** `hollowUMm`: what rail, drift and strings leave uncertain in any hollow; `floorMm`: scatter of the gauge's steps; standard. */
export function heightsAlongLine(
  heights: readonly Height[],
  line: { readonly lengthMm: number; readonly deepest: number },
  scatter: { readonly floorMm: number; readonly hollowUMm: number },
): HeightsAlongLine {
  const firstMm = heights[0]!.heightMm;
  let unknowns = { heightMm: firstMm, riseMm: 0, hollowMm: 0, deepest: line.deepest };
  for (let round = 0; ; round++) {
    const { heightMm, riseMm, hollowMm, deepest } = unknowns;
    const fittedAt = (u: number): number => heightMm + riseMm * u - hollowMm * hollowShare(u, deepest);
    const rowAt = (u: number): Float64Array => {
      const byDeepest = (hollowShare(u, deepest + 0.001) - hollowShare(u, deepest - 0.001)) / 0.002;
      return Float64Array.of(1, u, -hollowShare(u, deepest), -hollowMm * byDeepest);
    };
    const along = heights.map(({ xMm }) => xMm / line.lengthMm);
    const rows = along.map(rowAt);
    const residualsMm = Float64Array.from(heights, (one, i) => one.heightMm - fittedAt(along[i]!));
    const before = aboutNothing([200, 200, 10, deepestSpread]);
    before.mean[3] = line.deepest - deepest;
    const { knowledge, noiseMm } = waysOfWear({ rows, residualsMm }, before, scatter.floorMm);
    const [byHeight = 0, byRise = 0, byHollow = 0, byDeepest = 0] = knowledge.mean;
    unknowns = {
      heightMm: heightMm + byHeight,
      riseMm: riseMm + byRise,
      hollowMm: hollowMm + byHollow,
      deepest: Math.min(Math.max(deepest + byDeepest, 0.3), 0.7),
    };
    if (round < mostRounds && Math.abs(byHeight) + Math.abs(byRise) + Math.abs(byHollow) > stillMm) continue;

    const hollowVariance = knowledge.covariance[2 * 4 + 2]! + scatter.hollowUMm ** 2;
    const unwornMm = along.map((u, i) => fittedAt(u) + foretold(knowledge, rows[i]!).value);
    return {
      hollowMm: { value: unknowns.hollowMm, u: coverageFactor * Math.sqrt(hollowVariance) },
      deepestAtMm: unknowns.deepest * line.lengthMm,
      unwornMm,
      wearMm: heights.map(({ heightMm: readMm }, i) => ({
        value: unwornMm[i]! - readMm,
        u: coverageFactor * Math.sqrt(foretold(knowledge, rows[i]!).variance + noiseMm ** 2),
      })),
    };
  }
}
