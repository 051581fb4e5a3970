/**
 * Median and quantiles. The t factors of the GUM stand in test/reference.
 */
import { describe, expect, test } from "vitest";
import { median, normalCdf, normalQuantile, quantile, tQuantile } from "../../../../server/core/maths/quantiles.ts";
import { near } from "../../../support/near.ts";

describe("a sample", () => {
  test("has its middle value, or the mean of the two middle ones, as median", () => {
    expect(median([9, 1, 5])).toBe(5);
    expect(median([9, 1, 5, 6])).toBe(5.5);
    expect(median(Float64Array.of(2))).toBe(2);
  });

  test("has its least and its greatest value as quantiles 0 and 1", () => {
    expect(quantile([3, 1, 2], 0)).toBe(1);
    expect(quantile([3, 1, 2], 1)).toBe(3);
    expect(quantile([3, 1, 2], 0.5)).toBe(2);
  });

  test("is not put in order where it stands", () => {
    const sample = Object.freeze([9, 1, 5]);
    median(sample);
    quantile(sample, 0.3);
    expect(sample).toEqual([9, 1, 5]);
  });

  test("must not be empty, and a probability lies between 0 and 1", () => {
    expect(() => median([])).toThrow(RangeError);
    expect(() => quantile([], 0.5)).toThrow(RangeError);
    expect(() => quantile([1], 1.5)).toThrow(RangeError);
    expect(() => quantile([1], Number.NaN)).toThrow(RangeError);
  });
});

describe("the normal distribution", () => {
  // M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, table 26.1, to fifteen decimals (from memory).
  test("P(1) = 0.841344746068543, P(2) = 0.977249868051821", () => {
    near(normalCdf(1), 0.841344746068543, 1e-15);
    near(normalCdf(2), 0.977249868051821, 1e-15);
    near(normalCdf(0), 0.5, 0);
  });

  test("has quantile 0 at one half, 1.959963984540054 at 97.5 %", () => {
    near(normalQuantile(0.5), 0, 0);
    // As printed to 15 decimals in common tables (from memory).
    near(normalQuantile(0.975), 1.959963984540054, 2e-15);
  });

  test("quantile and probability undo one another, far out too", () => {
    for (const z of [-6, -3, -1, 0.1, 2, 4]) near(normalQuantile(normalCdf(z)), z, 1e-10, `at ${z}`);
  });
});

describe("Student's t", () => {
  test("with one degree of freedom is tan(π(p − ½)), with two (2p − 1)/√(2p(1 − p))", () => {
    for (const p of [0.6, 0.9, 0.975, 0.999]) {
      // Relative: the quantile runs to 318.
      near(tQuantile(p, 1) / Math.tan(Math.PI * (p - 0.5)), 1, 1e-12, `1 at ${p}`);
      near(tQuantile(p, 2) / ((2 * p - 1) / Math.sqrt(2 * p * (1 - p))), 1, 1e-12, `2 at ${p}`);
    }
  });

  test("is even: t(p) = −t(1 − p)", () => {
    near(tQuantile(0.1, 7), -tQuantile(0.9, 7), 1e-12);
  });
});
