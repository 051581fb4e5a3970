/**
 * When a straight line reaches a limit, against published worked examples (figures and source: inverseEstimation.json): the line by
 * `commonGrowth`, the range by Fieller's set.
 */
import { describe, test } from "vitest";
import { commonGrowth, type Growth } from "../../server/core/history/commonGrowth.ts";
import { type RatioSet, ratioSet } from "../../server/core/history/ratioSet.ts";
import { tQuantile } from "../../server/core/maths/quantiles.ts";
import { near } from "../support/near.ts";
import published from "./inverseEstimation.json" with { type: "json" };

type Example = (typeof published.examples)[number];

/** Readings of equal, unknown uncertainty: fitted with 1, then scaled by what they scatter, as the book does. */
function fitted({ x, y }: Example): { line: Growth; noise: number } {
  const points = x.map((at, i) => ({ at, depthMm: y[i]!, uMm: 1, run: 0, atLeast: false }));
  const line = commonGrowth(points)!;
  return { line, noise: Math.sqrt(line.chiSquared / line.degreesOfFreedom) };
}

describe.each(published.examples)("$what", (example) => {
  const { line, noise } = fitted(example);
  const through = line.lines.get(0)!;
  const t = tQuantile((1 + example.level) / 2, line.degreesOfFreedom);
  const ofReading = example.ofOneReading ? noise ** 2 : 0;
  const rate = { value: line.rateMm, variance: (noise * line.rateUMm) ** 2 };
  // Half a unit in the last printed place, and a little for a 5 that was rounded down.
  const printedTo = (key: "estimate" | "lower" | "upper") => 0.501 * 10 ** -example.decimals[key];

  function isThePrinted(set: RatioSet, origin: number): void {
    if (set.kind !== "between") throw new Error(`${set.kind}: the slope is clear`);
    near(origin + set.from, example.printed.lower, printedTo("lower"), "lower");
    near(origin + set.to, example.printed.upper, printedTo("upper"), "upper");
  }

  test("is at the printed place, within the printed limits, counted from the mean", () => {
    near(
      through.at + (example.reaches - through.depthMm) / line.rateMm,
      example.printed.estimate,
      printedTo("estimate"),
      "estimate",
    );
    const toGo = { value: example.reaches - through.depthMm, variance: (noise * through.uMm) ** 2 + ofReading };
    isThePrinted(ratioSet(toGo, rate, 0, t), through.at);
  });

  test("is the same counted from x = 0, where start and slope are correlated", () => {
    const start = through.depthMm - line.rateMm * through.at;
    const variance = (noise * through.uMm) ** 2 + rate.variance * through.at ** 2 + ofReading;
    // Cov(reaches − start, rate) = −Cov(start, rate) = +t̄ · Var(rate).
    const covariance = through.at * rate.variance;
    isThePrinted(ratioSet({ value: example.reaches - start, variance }, rate, covariance, t), 0);
  });
});
