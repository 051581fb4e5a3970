/** The two fits that are weighed against each other, and that they don't hang on where they start. Lengths in mm. */
import { describe, expect, test } from "vitest";
import { heightMm, parameterNames } from "../../../../server/core/surface/idealSurface.ts";
import { residualsMm, rowWriter } from "../../../../server/core/surface/surfaceStep.ts";
import { near } from "../../../support/near.ts";
import { shapeWith } from "../plainBoards.ts";
import { noiseMm, pit, places, plan, problemWith, rivalsOf, seededBoard, takenFrom } from "./seededBoards.ts";

const middle = { xMm: 83, yMm: 2 };

describe("the surface of a board without wear", () => {
  const readings = takenFrom(seededBoard(12).readings);
  const { unworn: fit } = rivalsOf(readings);
  const residuals = residualsMm(readings, plan, fit.placed);

  test("is that of least squares: what is left over is square to every unknown", () => {
    const writeRow = rowWriter(readings, plan, fit.placed);
    const row = new Float64Array(parameterNames.length);
    const sums = new Float64Array(parameterNames.length);
    const squares = new Float64Array(parameterNames.length);
    residuals.forEach((r, i) => {
      writeRow(i, row);
      row.forEach((g, j) => {
        sums[j] = sums[j]! + g * r;
        squares[j] = squares[j]! + g * g;
      });
    });
    parameterNames.forEach((name, j) => {
      // As a share of the noise along that unknown: the rounds stop at a hundredth. What is known beforehand pulls u0 by a little more.
      const along = squares[j] === 0 ? 0 : Math.abs(sums[j]!) / Math.sqrt(squares[j]!) / noiseMm;
      if (name !== "hollowDeepest") expect(along, name).toBeLessThan(0.02);
    });
  });

  test("has every reading unworn, and the noise of what is left over ten unknowns", () => {
    expect([...fit.unworn].every((p) => p === 1)).toBe(true);
    const squares = residuals.reduce((sum, r) => sum + r * r, 0);
    // Ten parameters without a facet; the last round moved the noise by less than a hundredth of itself.
    near(fit.scales.noiseMm, Math.sqrt(squares / (places.length - 10)), 0.01 * noiseMm);
  });
});

describe("on a board with a pit of 0.3", () => {
  const worn = pit(middle, 0.3, 25, 6);
  const { shape, readings } = seededBoard(7, worn);
  const taken = takenFrom(readings);
  const { worn: withWear, unworn: without } = rivalsOf(taken);

  test("the surface with wear is much the likelier, and lies above the pit where the other sinks into it", () => {
    expect(withWear!.logLikelihood - without.logLikelihood).toBeGreaterThan(50);
    const offMm = (fit: typeof without) =>
      heightMm(plan, fit.placed.shape, middle.xMm, middle.yMm) - heightMm(plan, shape, middle.xMm, middle.yMm);
    // A surface over 77 readings is known to some 0.005 at such a place.
    expect(Math.abs(offMm(withWear!))).toBeLessThan(0.015);
    expect(offMm(without)).toBeLessThan(-0.03);
  });

  test("the same surface is found from a start far off: rolled, flat, a millimetre low", () => {
    const far = shapeWith({
      heightMm: 9,
      crownNutMm: 6,
      crownEndMm: -5,
      radiusNutMm: 60,
      radiusMiddleMm: 60,
      radiusEndMm: 60,
      hollowLowestMm: 0,
      hollowHighestMm: 0,
    });
    for (const seed of [1, 2, 3, 7, 12]) {
      const read = takenFrom(seededBoard(seed, worn).readings);
      const { worn: nearer } = rivalsOf(read);
      const { worn: again } = rivalsOf(read, problemWith(), far);
      for (const { xMm, yMm } of places) {
        // The last round moved no height by more than a hundredth of the noise, and those left undone add up to less. Seen: 2e-5.
        near(
          heightMm(plan, again!.placed.shape, xMm, yMm),
          heightMm(plan, nearer!.placed.shape, xMm, yMm),
          0.005 * noiseMm,
          `seed ${seed} at ${xMm}, ${yMm}`,
        );
      }
    }
  });
});
