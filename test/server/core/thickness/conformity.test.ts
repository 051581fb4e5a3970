/** Certain, possible, near or none, on both sides of a limit and of its guard bands; and chances as one says them. */
import { describe, expect, test } from "vitest";
import {
  certaintyOf,
  chanceInWords,
  isClose,
  probabilityOutside,
  probabilityOver,
  probabilityUnder,
} from "../../../../server/core/thickness/conformity.ts";
import { near } from "../../../support/near.ts";

describe("a limit passed by some amount, known to ±0.03 mm,", () => {
  test.each([
    [1, "certain"],
    [0.03, "certain"],
    [0.029, "possible"],
    [0.001, "possible"],
    [0, "near"],
    [-0.029, "near"],
    [-0.03, "none"],
    [-1, "none"],
  ] as const)("%f mm, is so: %s", (overMm, certainty) => {
    expect(certaintyOf(overMm, 0.03)).toBe(certainty);
    expect(isClose(certainty)).toBe(Math.abs(overMm) < 0.03);
  });

  test("is certain on one side or the other where nothing is uncertain", () => {
    expect(certaintyOf(0.001, 0)).toBe("certain");
    expect(certaintyOf(0, 0)).toBe("none");
    expect(certaintyOf(-0.001, 0)).toBe("none");
  });
});

describe("the probability of being on the wrong side", () => {
  test("is a half at the limit, and one less its opposite everywhere", () => {
    expect(probabilityOver({ value: 0.2, u: 0.03 }, 0.2)).toBe(0.5);
    const measured = { value: 0.21, u: 0.03 };
    near(probabilityOver(measured, 0.2) + probabilityUnder(measured, 0.2), 1, 1e-15);
  });

  test("takes U for two standard uncertainties: at U from the limit 2.3 %, from the table of the normal law", () => {
    // 0.02275 at z = 2, five digits printed in any table.
    near(probabilityOver({ value: 0.17, u: 0.03 }, 0.2), 0.02275, 5e-6);
    near(probabilityUnder({ value: 4.06, u: 0.06 }, 4), 0.02275, 5e-6);
  });

  test("of a range counts both of its sides", () => {
    // In the middle of a range as wide as ±U: twice 2.275 %.
    near(probabilityOutside({ value: 0.7, u: 0.1 }, [0.6, 0.8]), 0.0455, 1e-5);
  });

  test("without uncertainty is nothing or one", () => {
    expect(probabilityOver({ value: 0.21, u: 0 }, 0.2)).toBe(1);
    expect(probabilityOver({ value: 0.2, u: 0 }, 0.2)).toBe(0);
  });
});

test.each([
  [0.001, "less than 1 in 40"],
  [0.023, "about 1 in 40"],
  [0.034, "about 1 in 30"],
  [0.05, "about 1 in 20"],
  [0.07, "about 1 in 15"],
  [0.1, "about 1 in 10"],
  [0.31, "about 3 in 10"],
  [0.5, "about 5 in 10"],
  [0.86, "about 9 in 10"],
  [0.93, "about 14 in 15"],
  [0.97, "about 29 in 30"],
  [0.999, "more than 39 in 40"],
])("a chance of %f is said as: %s", (probability, words) => {
  expect(chanceInWords(probability)).toBe(words);
});
