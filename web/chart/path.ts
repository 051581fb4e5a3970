/**
 * Lines of a drawing from lists of numbers: the few path shapes that every view uses. px -> SVG path text.
 */
import { area, line } from "d3";

/** An open line through places. */
export const openPath = (xs: readonly number[], ys: readonly number[]): string =>
  line<number>()
    .x((_, i) => xs[i]!)
    .y((y) => y)([...ys]) ?? "";

/** A closed shape through places. */
export const closedPath = (places: readonly (readonly [number, number])[]): string =>
  places.length === 0 ? "" : `M${places.map(([x, y]) => `${tidy(x)},${tidy(y)}`).join("L")}Z`;

/** The strip between two lines over the same x. */
export const stripPath = (xs: readonly number[], upper: readonly number[], lower: readonly number[]): string =>
  area<number>()
    .x((_, i) => xs[i]!)
    .y0((_, i) => lower[i]!)
    .y1((y) => y)([...upper]) ?? "";

/** Hundredths of a pixel are enough for a screen and halve the size of the drawing. */
const tidy = (px: number): number => Math.round(px * 100) / 100;
