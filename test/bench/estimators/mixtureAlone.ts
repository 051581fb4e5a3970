/**
 * The mixture with every reading for itself: all share one prior, the share of readings that look unworn.
 */
import type { Estimator } from "./estimator.ts";
import { mixtureFit } from "./mixture.ts";

export const mixtureAlone: Estimator = (task) =>
  mixtureFit(task, (unworn) => {
    const share = unworn.reduce((sum, p) => sum + p, 0) / unworn.length;
    return unworn.map(() => Math.min(Math.max(share, 0.02), 0.99));
  });
