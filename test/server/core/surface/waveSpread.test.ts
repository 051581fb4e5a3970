/** How great a board's waves are, as their coefficients show. Lengths in mm. */
import { describe, expect, test } from "vitest";
import { formModes } from "../../../../server/core/surface/form.ts";
import { spreadOf } from "../../../../server/core/surface/waveSpread.ts";
import { near } from "../../../support/near.ts";
import { rivalsOf, seededBoard, takenFrom } from "./seededBoards.ts";

describe("how great the waves are", () => {
  const readings = takenFrom(seededBoard(2).readings);
  const { unworn: fit } = rivalsOf(readings);
  const columns = fit.unscaledCovariance.length ** 0.5 + formModes;
  const withForm = (coefficientMm: number, standardUMm: number) => {
    const unscaledCovariance = new Float64Array(columns * columns);
    for (let j = columns - formModes; j < columns; j++) {
      unscaledCovariance[j * (columns + 1)] = (standardUMm / fit.scales.noiseMm) ** 2;
    }
    const form = new Float64Array(formModes).fill(coefficientMm);
    return { ...fit, placed: { ...fit.placed, form }, unscaledCovariance };
  };

  test("is the root mean square of their coefficients, what is not known of them included: 0.006 and 0.008 make 0.01", () => {
    // Roots and squares: rounding.
    near(spreadOf(withForm(0.006, 0.008)), 0.01, 1e-12);
  });

  test("is never taken to be more than workmanship is, 0.02, nor less than 0.002", () => {
    expect(spreadOf(withForm(0.1, 0))).toBe(0.02);
    expect(spreadOf(withForm(0.0001, 0))).toBe(0.002);
  });
});
