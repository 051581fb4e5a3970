/**
 * Coverage factors: Student's t of JCGM 100:2008 (GUM), table G.2 (figures, source and what is from memory: tFactors.json).
 */
import { describe, test } from "vitest";
import { normalCdf, normalQuantile, tQuantile } from "../../server/core/maths/quantiles.ts";
import { agreesToDigits, near } from "../support/near.ts";
import table from "./tFactors.json" with { type: "json" };

/** Printed entries that are known to differ from the true value by more than rounding. */
const misprinted = new Set(["1 at 0.9973", "35 at 0.9"]);

describe.each(table.rows)("$degreesOfFreedom degrees of freedom", ({ degreesOfFreedom, printed, computed }) => {
  test("the factors are those of a second implementation", () => {
    table.coverage.forEach((coverage, k) => {
      // Both claim double precision; 11 digits leave room for their difference in the far tail at 1 degree of freedom.
      agreesToDigits(tQuantile((1 + coverage) / 2, degreesOfFreedom), computed[k]!, 11, `at ${coverage}`);
    });
  });

  test("the factors are the printed ones", () => {
    table.coverage.forEach((coverage, k) => {
      if (misprinted.has(`${degreesOfFreedom} at ${coverage}`)) return;
      // Half a unit in the last printed place (two decimals, three at 100), and a little for a 5 that was rounded down.
      const lastPlace = degreesOfFreedom === 100 ? 0.001 : 0.01;
      near(tQuantile((1 + coverage) / 2, degreesOfFreedom), printed[k]!, 0.51 * lastPlace, `at ${coverage}`);
    });
  });
});

test("with endless degrees of freedom the factors are those of the normal distribution", () => {
  // The table's last row: 1.645, 1.960, 2.576.
  near(normalQuantile(0.95), 1.645, 5e-4);
  near(normalQuantile(0.975), 1.96, 5e-4);
  near(normalQuantile(0.995), 2.576, 5e-4);
  near(tQuantile(0.975, 1e9), normalQuantile(0.975), 1e-8);
});

test("coverage of ± 2 standard uncertainties is 95.45 %", () => {
  // JCGM 100:2008, G.1.3 and table G.1: 95.45. Printed to four digits.
  near(normalCdf(2) - normalCdf(-2), 0.9545, 5e-5);
});
