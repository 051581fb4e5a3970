/** The board's shape in the trade's terms: states of the hollow, what the readings themselves show. Lengths in mm. */
import { describe, expect, test } from "vitest";
import { stringYMm } from "../../../../server/core/board/stringPaths.ts";
import { heightMm, type SurfaceShape } from "../../../../server/core/surface/idealSurface.ts";
import { shapeOfBoard } from "../../../../server/core/surface/shapeOfBoard.ts";
import { hollowOfShape } from "../../../../server/core/surface/straightedge.ts";
import { near } from "../../../support/near.ts";
import { evenly, knownSurface, pointGauge, sevenLines, shapeWith, violin, wearAt } from "../plainBoards.ts";

const places = sevenLines(violin, evenly(0, 270, 11));
const toleranceMm = violin.hollowToleranceMm.value;

function shapeFor(shape: SurfaceShape, targets: readonly number[], wear = 0, gauge = pointGauge) {
  const surface = knownSurface(shape);
  const { readings } = wearAt(places, surface, ({ xMm }) => (Math.abs(xMm - 54) < 1 ? wear : 0));
  return shapeOfBoard(surface, { stage: "compensated", readings }, violin, gauge, targets, 0);
}

const plain = shapeWith();
const shown = [0, 1, 2, 3].map(
  (index) => hollowOfShape(knownSurface(plain).plan, plain, (xMm) => stringYMm(violin, index, xMm)).hollowMm,
);

describe("the hollow under a string", () => {
  test.each([
    ["within", 0],
    ["within", 0.99 * toleranceMm],
    ["shallow", 1.01 * toleranceMm],
    ["within", -0.99 * toleranceMm],
    ["deep", -1.01 * toleranceMm],
  ])("is %s where the target differs by %f", (state, byMm) => {
    const { hollows } = shapeFor(
      plain,
      shown.map((mm) => mm + byMm),
    );
    for (const hollow of hollows) expect(hollow.state).toBe(state);
  });

  test("is named humped where the board stands proud of the line between its ends", () => {
    const { hollows } = shapeFor(shapeWith({ hollowLowestMm: -0.3, hollowHighestMm: -0.3 }), shown);
    for (const { state, hollowMm } of hollows) {
      expect(state).toBe("humped");
      expect(hollowMm.value).toBeLessThan(0);
    }
  });

  test("on readings without wear is the surface's own, and deeper by the wear where it is deepest", () => {
    const unworn = shapeFor(plain, shown);
    const worn = shapeFor(plain, shown, 0.5);
    unworn.hollows.forEach(({ measuredMm, hollowMm }, i) => {
      // Eleven crosslines: the deepest of a parabola lies on the sixth; the camber's share moves it by a hair.
      near(measuredMm!, hollowMm.value, 2e-3, `string ${i}`);
      // At a fifth of the length the hollow is 0.64 of the whole; 0.5 of wear comes on top.
      const chord = heightOnChord(i, 54) - heightMm(knownSurface(plain).plan, plain, 54, stringYMm(violin, i, 54));
      near(worn.hollows[i]!.measuredMm!, chord + 0.5, 1e-9, `string ${i}, worn`);
    });
  });

  function heightOnChord(index: number, xMm: number): number {
    const { plan } = knownSurface(plain);
    const at = (x: number) => heightMm(plan, plain, x, stringYMm(violin, index, x));
    return at(0) + ((at(270) - at(0)) * xMm) / 270;
  }

  test("is not told of readings where fewer than five lie under the string", () => {
    const surface = knownSurface(plain);
    const few = sevenLines(violin, evenly(10, 260, 4));
    const { readings } = wearAt(few, surface, () => 0);
    const { hollows } = shapeOfBoard(surface, { stage: "compensated", readings }, violin, pointGauge, shown, 0);
    for (const { measuredMm } of hollows) expect(measuredMm).toBeNull();
  });

  test("carries the gauge's limit once: twice a/√3 where the surface itself is certain", () => {
    const { hollows } = shapeFor(plain, shown, 0, { ...pointGauge, errorLimitMm: 0.015 });
    for (const { hollowMm } of hollows) near(hollowMm.u, (2 * 0.015) / Math.sqrt(3), 1e-12);
  });
});
