/**
 * A straightedge laid along a path: it rests on the high places, and the hollow is its largest gap.
 *
 * The underside of a laid straightedge is the upper hull of the profile (heights at rising distances, mm).
 * The hollow is signed: where the profile stands above the line between its ends by more than the largest gap,
 * the board is humped and the hollow is minus that height.
 */
import { hullHeights } from "../maths/hull.ts";
import type { SurfacePlan, SurfaceShape } from "./idealSurface.ts";
import { heightMm } from "./idealSurface.ts";

export type LaidStraightedge = {
  /** Largest gap, mm; negative: a hump of that height. */
  readonly hollowMm: number;
  /** Where the largest gap (or the hump) is, mm from the start of the path. */
  readonly atMm: number;
  /** Height of the straightedge's underside at each given distance, mm. */
  readonly undersideMm: readonly number[];
};

/**
 * Lay a straightedge on a profile. Distances in rising order, at least two.
 * Example: distances 0, 50, 100 with heights 0, −0.6, 0 -> hollow 0.6 at 50.
 */
export function layStraightedge(distancesMm: readonly number[], heightsMm: readonly number[]): LaidStraightedge {
  const undersideMm = Array.from(hullHeights(distancesMm, heightsMm));
  const last = distancesMm.length - 1;
  const chordSlope = (heightsMm[last] - heightsMm[0]) / (distancesMm[last] - distancesMm[0]);
  let gap = { mm: 0, atMm: distancesMm[0] };
  let hump = { mm: 0, atMm: distancesMm[0] };
  distancesMm.forEach((x, i) => {
    const gapMm = undersideMm[i] - heightsMm[i];
    if (gapMm > gap.mm) gap = { mm: gapMm, atMm: x };
    const humpMm = heightsMm[i] - heightsMm[0] - chordSlope * (x - distancesMm[0]);
    if (humpMm > hump.mm) hump = { mm: humpMm, atMm: x };
  });
  const humped = hump.mm > gap.mm;
  return { hollowMm: humped ? -hump.mm : gap.mm, atMm: humped ? hump.atMm : gap.atMm, undersideMm };
}

/** Distances along the board at which a smooth surface is looked at when a straightedge is laid on it. */
const stations = 48;

/**
 * What a straightedge over the whole board shows on a shape along a path y(x). The largest gap is found between
 * stations by a parabola through the three around it, so that it varies smoothly with the shape.
 */
export function hollowOfShape(
  plan: SurfacePlan,
  shape: SurfaceShape,
  pathYMm: (xMm: number) => number,
): { readonly hollowMm: number; readonly atMm: number } {
  const stepMm = plan.lengthMm / stations;
  const distances = Array.from({ length: stations + 1 }, (_, i) => i * stepMm);
  const heights = distances.map((x) => heightMm(plan, shape, x, pathYMm(x)));
  const laid = layStraightedge(distances, heights);
  const i = Math.round(laid.atMm / stepMm);
  if (i === 0 || i === stations) return laid;
  const chordSlope = (heights[stations] - heights[0]) / plan.lengthMm;
  const underside =
    laid.hollowMm < 0 ? (k: number) => heights[0] + chordSlope * distances[k] : (k: number) => laid.undersideMm[k];
  const gapAt = (k: number): number => underside(k) - heights[k];
  const [before, here, after] = [gapAt(i - 1), gapAt(i), gapAt(i + 1)];
  const bend = before - 2 * here + after;
  if (bend === 0) return laid;
  const offset = Math.min(Math.max((0.5 * (before - after)) / bend, -1), 1);
  return { hollowMm: here - 0.25 * (before - after) * offset, atMm: laid.atMm + offset * stepMm };
}
