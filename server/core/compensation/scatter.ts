/**
 * Scatter of one reading, from few repeats and from what is usual.
 *
 * Few repeats can agree by chance. So what they say is taken together with the scatter of a careful rail, 0.01 mm (half of the
 * ±0.02 mm that one is good for; from memory), or the gauge's resolution as a rectangle (δ/√12) where that is coarser, as if
 * that had come from four degrees of freedom:
 *
 *   s² = (squares + 4 · usual²) / (freedom + 4)
 *
 * in: squares of the repeats about their means, mm², and their degrees of freedom -> out: s in mm, and degrees of freedom in all.
 */
import type { Gauge } from "../board/settings.ts";

const usualScatterMm = 0.01;
const usualFreedom = 4;

export type Scatter = { readonly scatterMm: number; readonly freedom: number };

export function scatterOf(squaresMm2: number, freedom: number, gauge: Gauge): Scatter {
  const usualMm = Math.max(usualScatterMm, gauge.resolutionMm / Math.sqrt(12));
  const all = freedom + usualFreedom;
  return { scatterMm: Math.sqrt((squaresMm2 + usualFreedom * usualMm ** 2) / all), freedom: all };
}
