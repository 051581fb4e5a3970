/**
 * Whether a limit is kept, against published worked examples and guard bands (figures, sources and what is from memory:
 * conformity.json): JCGM 106:2012, ISO 14253-1 and ILAC-G8.
 */
import { describe, expect, test } from "vitest";
import { normalCdf, normalQuantile, tQuantile } from "../../server/core/maths/quantiles.ts";
import {
  certaintyOf,
  probabilityOutside,
  probabilityOver,
  probabilityUnder,
} from "../../server/core/thickness/conformity.ts";
import { coverageFactor, type Quantity } from "../../server/core/units.ts";
import { agreesToDigits, near } from "../support/near.ts";
import published from "./conformity.json" with { type: "json" };

type Example = (typeof published.examples)[number];

describe.each(published.examples)("$what (JCGM 106, $clause)", (example) => {
  test("lies within its limits with the published probability", () => {
    const probability = 1 - outside(example);
    // Printed to two decimals, the last one not always rounded to nearest: 0.66 for 0.6626.
    near(probability, example.printed, 5e-3, "printed");
    // A second implementation in double precision; 1 − p loses two of sixteen digits.
    agreesToDigits(probability, example.computed, 13, "computed");
  });
});

test.each(published.guardBands)("a guard band of $inExpandedU U leaves the stated risk ($rule: $stated)", (band) => {
  // A value this much inside its limit.
  const measured: Quantity = { value: 10 - 0.3 * band.inExpandedU, u: 0.3 };
  const risk = probabilityOver(measured, 10);
  // 10 − 0.3 · 3 rounds in the 16th digit, and six standard deviations out the tail multiplies that by 36 and by 10/0.9.
  agreesToDigits(risk, band.computed, 11, "risk");
  agreesToDigits(probabilityUnder({ value: -measured.value, u: 0.3 }, -10), band.computed, 11, "the same from below");
});

test("a guard band of U, k = 2, is where a limit counts as proved, kept or passed", () => {
  // ISO 14253-1 with the factor of its earlier editions: at U, not before.
  expect(certaintyOf(-0.3, 0.3)).toBe("none");
  expect(certaintyOf(-0.299, 0.3)).toBe("near");
  expect(certaintyOf(0.299, 0.3)).toBe("possible");
  expect(certaintyOf(0.3, 0.3)).toBe("certain");
});

test("one-sided factors of the normal and the t distribution are those of a second implementation", () => {
  // Double precision on both sides; 12 digits leave room for their difference.
  for (const { probability, z } of published.oneSided.normal) {
    agreesToDigits(normalQuantile(probability), z, 12, `z at ${probability}`);
    agreesToDigits(normalCdf(z), probability, 12, `probability at ${z}`);
  }
  for (const { degreesOfFreedom, probability, t } of published.oneSided.t) {
    agreesToDigits(tQuantile(probability, degreesOfFreedom), t, 12, `t at ${probability}, ${degreesOfFreedom}`);
  }
});

function outside({ estimate, u, lower, upper }: Example): number {
  const measured: Quantity = { value: estimate, u: coverageFactor * u };
  if (lower !== null && upper !== null) return probabilityOutside(measured, [lower, upper]);
  return lower === null ? probabilityOver(measured, upper!) : probabilityUnder(measured, lower);
}
