/**
 * Repeatability where nearly all digits cancel: the NIST Statistical Reference Datasets, univariate, NumAcc1 to NumAcc4, whose
 * mean and standard deviation are exact (NumAcc2 and NumAcc3 from memory, confirmed in rational arithmetic).
 * https://www.itl.nist.gov/div898/strd/univ/homepage.html
 *
 * Read as repeats of one place: a gauge whose zero lies ten kilometres away still tells how well it repeats.
 */
import { test } from "vitest";
import { repeatSdMm } from "../../server/core/readings/repeats.ts";
import { readingsAt } from "../server/core/plainBoards.ts";
import { agreesToDigits } from "../support/near.ts";

/** 1001 readings: `middle` once, then a tenth below and above by turns. */
function alternating(middle: number, below: number, above: number): readonly number[] {
  return [middle, ...Array.from({ length: 500 }, () => [below, above]).flat()];
}

// A reading near 1e7 is held to 2e-9, of a spread of 0.1: 8 digits are there to be had; near 1e6, 9; near 1, all but rounding.
test.each([
  { name: "NumAcc1", readings: [10000001, 10000003, 10000002], sd: 1, digits: 15 },
  { name: "NumAcc2", readings: alternating(1.2, 1.1, 1.3), sd: 0.1, digits: 14 },
  { name: "NumAcc3", readings: alternating(1000000.2, 1000000.1, 1000000.3), sd: 0.1, digits: 9 },
  { name: "NumAcc4", readings: alternating(10000000.2, 10000000.1, 10000000.3), sd: 0.1, digits: 8 },
])("$name repeats with its certified standard deviation", ({ readings, sd, digits }) => {
  const repeats = readingsAt(
    readings.map(() => ({ xMm: 100, yMm: 0 })),
    (_, i) => readings[i]!,
  );
  agreesToDigits(repeatSdMm(repeats)!, sd, digits, "standard deviation");
});
