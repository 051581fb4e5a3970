/**
 * The mixture where wear hangs together and sits under strings: a reading's prior comes from its neighbours, and is lowered on
 * a string's path and raised midway.
 *
 * Distance counts in the pattern of the readings: an eleventh of the length along is as far as a seventh of the width across.
 * How much a string's path counts is a guess (from memory of where boards wear), not fitted.
 */
import type { SurfaceShape } from "../../../server/core/surface/idealSurface.ts";
import type { Estimator, SpotToFit, Task } from "./estimator.ts";
import { mixtureFit, usualLeastWear } from "./mixture.ts";

/** Odds of being worn right under a string, and midway between two, as multiples of what the neighbours say. */
const oddsUnderString = 1.5;
const oddsMidway = 0.6;
const strings = 4;

export const mixtureTogether: Estimator = (task) => together(task, usualLeastWear);

/** The same, but wear may be so shallow that it hardly stands out of the noise: fading rims pull less, at the cost of some noise. */
export const mixtureShallow: Estimator = (task) => together(task, 3);

function together(task: Task, leastMeanWear: number): SurfaceShape | null {
  const nearness = task.spots.map((spot) => task.spots.map((other) => nearnessOf(task, spot, other)));
  const odds = task.spots.map((spot) => oddsOfPlace(task, spot));
  const priors = (unworn: Float64Array): Float64Array =>
    unworn.map((own, i) => {
      let near = 0.5 * 0.2;
      let all = 0.2;
      nearness[i]!.forEach((close, k) => {
        if (k === i) return;
        near += close * unworn[k]!;
        all += close;
      });
      const share = Math.min(Math.max(all > 0 ? near / all : own, 0.02), 0.98);
      const wornOdds = ((1 - share) / share) * odds[i]!;
      return Math.min(Math.max(1 / (1 + wornOdds), 0.02), 0.99);
    });
  return mixtureFit(task, priors, leastMeanWear);
}

function nearnessOf({ plan }: Task, one: SpotToFit, other: SpotToFit): number {
  const alongSteps = ((one.xMm - other.xMm) / plan.lengthMm) * 11;
  const widthMm = 1.3 * (plan.highest.endMm - plan.lowest.endMm);
  const acrossSteps = ((one.yMm - other.yMm) / widthMm) * 7;
  return Math.exp(-0.5 * (alongSteps ** 2 + acrossSteps ** 2));
}

function oddsOfPlace({ plan }: Task, { xMm, yMm }: SpotToFit): number {
  const u = xMm / plan.lengthMm;
  const lowest = plan.lowest.nutMm + (plan.lowest.endMm - plan.lowest.nutMm) * u;
  const highest = plan.highest.nutMm + (plan.highest.endMm - plan.highest.nutMm) * u;
  const place = ((yMm - lowest) / (highest - lowest)) * (strings - 1);
  const fromString = Math.min(Math.abs(place - Math.round(Math.min(Math.max(place, 0), strings - 1))), 0.5) / 0.5;
  return oddsUnderString * (oddsMidway / oddsUnderString) ** fromString;
}
