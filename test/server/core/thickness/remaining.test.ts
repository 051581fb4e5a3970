/** Thickness left after planing, by hand. Lengths in mm. */
import { describe, expect, test } from "vitest";
import type { Side } from "../../../../server/core/examination.ts";
import { calliperUMm, thicknessAfterUMm, thicknessRemaining } from "../../../../server/core/thickness/remaining.ts";
import { near } from "../../../support/near.ts";
import { instrumentFrom } from "../board/boards.ts";
import { pointGauge, violinSettings } from "../plainBoards.ts";

const violin = instrumentFrom({ ...violinSettings, edge_limit: "4", centre_limit: "5", dressing_spend: "0.25" });
const reading = (xMm: number, side: Side, thicknessMm: number) => ({ row: 2, xMm, side, yMm: 0, thicknessMm });
const edges = [
  reading(20, "bass", 5.1),
  reading(20, "treble", 4.9),
  reading(250, "bass", 5.4),
  reading(250, "treble", 5),
];

describe("thickness", () => {
  test("after is before less the cut, place by place, and the thinnest edge is told before and after", () => {
    const left = thicknessRemaining(edges, [0.5, 0.125, 0.25, 0.375], 0.04, violin, pointGauge);
    expect(left?.places.map(({ afterMm }) => afterMm)).toEqual([4.6, 4.775, 5.15, 4.625]);
    expect(left?.before).toMatchObject({ xMm: 20, side: "treble", value: 4.9 });
    expect(left?.edgeAfterMm.value).toBe(4.6);
    expect(left?.centreAfterMm).toBeNull();
    expect(left?.limitMm).toBe(4);
  });

  test("without a plan stays as it is, as certain as the calliper", () => {
    const left = thicknessRemaining(edges, null, 0.3, violin, pointGauge);
    expect(left?.places.every(({ afterMm }) => afterMm === null)).toBe(true);
    expect(left?.edgeAfterMm).toEqual({ value: 4.9, u: calliperUMm(pointGauge) });
  });

  test("has twice a rectangle of ±0.05 as the calliper's uncertainty, and the cut's on top", () => {
    near(calliperUMm(pointGauge), (2 * 0.05) / Math.sqrt(3), 1e-15);
    near(thicknessAfterUMm(0, pointGauge), calliperUMm(pointGauge), 1e-15);
    // By hand: √(0.05774² + 0.08²) = 0.09866.
    near(thicknessAfterUMm(0.08, pointGauge), 0.09866, 5e-6);
    near(thicknessRemaining(edges, [0, 0, 0, 0], 0.08, violin, pointGauge)!.edgeAfterMm.u, 0.09866, 5e-6);
  });

  test("over the underside hollow has a limit of its own and is no edge", () => {
    const all = [...edges, reading(220, "centre", 4.7), reading(240, "centre", 4.5)];
    const left = thicknessRemaining(all, [0, 0, 0, 0, 0.3, 0], 0.04, violin, pointGauge);
    expect(left?.centreAfterMm?.value).toBeCloseTo(4.4, 12);
    expect(left?.edgeAfterMm.value).toBe(4.9);
    expect(left?.before.side).toBe("treble");
    expect(left?.places.map(({ limitMm }) => limitMm)).toEqual([4, 4, 4, 4, 5, 5]);
  });

  test("is not told where no edge was measured", () => {
    expect(thicknessRemaining([], [], 0.04, violin, pointGauge)).toBeNull();
    expect(thicknessRemaining([reading(220, "centre", 4.7)], [0], 0.04, violin, pointGauge)).toBeNull();
  });

  test.each([
    [4.9, 3],
    [4.76, 3],
    [4.75, 3],
    [4.74, 2],
    [4.25, 1],
    [4.24, 0],
    [4, 0],
    [3.5, 0],
  ])("of %f at the thinnest edge leaves %i dressings of 0.25 above a limit of 4", (thicknessMm, dressings) => {
    const left = thicknessRemaining([reading(20, "bass", thicknessMm)], null, 0, violin, pointGauge);
    expect(left?.dressingsLeft).toBe(dressings);
  });

  test("of 4.6 leaves two dressings of 0.3 above a limit of 4", () => {
    const limits = instrumentFrom({ ...violinSettings, edge_limit: "4", dressing_spend: "0.3" });
    expect(thicknessRemaining([reading(20, "bass", 4.6)], null, 0, limits, pointGauge)?.dressingsLeft).toBe(2);
  });
});
