/**
 * An uncertainty budget to its end: JCGM 100:2008 (GUM), annex H.1, calibration of an end gauge (figures, source and what is
 * from memory: endGauge.json). Under test is the factor at the end; the budget is added up here as the annex does.
 */
import { expect, test } from "vitest";
import { tQuantile } from "../../server/core/maths/quantiles.ts";
import { near } from "../support/near.ts";
import gauge from "./endGauge.json" with { type: "json" };

const { standard, difference, expansion, printed } = gauge;

const uDifferenceNm = Math.hypot(...difference.parts.map(({ uNm }) => uNm));
/** The two gauges may differ in expansion, seen at the bed's own temperature, and in temperature. */
const uExpansionNm =
  standard.lengthNm *
  Math.abs(expansion.meanDeviationDegrees) *
  (expansion.differenceHalfWidthPerDegree / Math.sqrt(3));
const uTemperatureNm = standard.lengthNm * expansion.perDegree * (expansion.gaugesHalfWidthDegrees / Math.sqrt(3));

const parts = [
  { uNm: standard.uNm, degreesOfFreedom: standard.degreesOfFreedom },
  {
    uNm: uDifferenceNm,
    // JCGM 100:2008, G.4.1, over the parts of the difference.
    degreesOfFreedom: effectiveDegreesOfFreedom(difference.parts),
  },
  { uNm: uExpansionNm, degreesOfFreedom: expansion.differenceDegreesOfFreedom },
  { uNm: uTemperatureNm, degreesOfFreedom: expansion.gaugesDegreesOfFreedom },
];
const uNm = Math.hypot(...parts.map((part) => part.uNm));

test("the parts of the budget are the printed ones", () => {
  // Half a unit in the last printed place.
  near(uDifferenceNm, printed.parts.differenceNm, 0.05, "difference");
  near(uExpansionNm, printed.parts.expansionNm, 0.05, "expansion");
  near(uTemperatureNm, printed.parts.temperatureNm, 0.05, "temperature");
});

test("the length and its standard uncertainty are the printed ones, 32 nm", () => {
  expect(standard.lengthNm + difference.valueNm).toBe(printed.lengthNm);
  near(uNm, printed.uNm, 0.5, "standard uncertainty");
});

test("16 degrees of freedom are left, and the factor for 99 % is 2.92", () => {
  const degreesOfFreedom = Math.floor(effectiveDegreesOfFreedom(parts));
  expect(degreesOfFreedom).toBe(printed.degreesOfFreedom);
  near(tQuantile(0.995, degreesOfFreedom), printed.t, 0.005, "factor");
});

test("the expanded uncertainty for 99 % is the printed 93 nm", () => {
  // 92.5 before rounding; the annex multiplies the rounded figures, 2.92 · 32 = 93.4.
  near(tQuantile(0.995, 16) * printed.uNm, printed.expandedNm, 0.5, "from rounded figures");
  near(tQuantile(0.995, 16) * uNm, 92.483, 5e-4, "from unrounded figures, by a second implementation");
});

function effectiveDegreesOfFreedom(of: readonly { readonly uNm: number; readonly degreesOfFreedom: number }[]): number {
  const together = of.reduce((sum, part) => sum + part.uNm ** 2, 0);
  return together ** 2 / of.reduce((sum, part) => sum + part.uNm ** 4 / part.degreesOfFreedom, 0);
}
