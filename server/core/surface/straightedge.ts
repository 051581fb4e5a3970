/**
 * A straightedge laid along a path: it rests on the high places, and the hollow is its largest gap.
 *
 * The underside of a laid straightedge is the upper hull of the profile (heights at rising distances, mm).
 * The hollow is signed: where the profile stands above the line between its ends by more than the largest gap,
 * the board is humped and the hollow is minus that height.
 */
import { hullHeights } from "../maths/hull.ts";
import { type Form, formMm, noForm } from "./form.ts";
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

/** What a straightedge over the whole board shows on a shape, and how that answers to the shape's parameters. */
export type HollowOfShape = { readonly hollowMm: number; readonly atMm: number };

/** Distances along the board at which a smooth surface is looked at when a straightedge is laid on it. */
const stations = 48;

/**
 * What a straightedge over the whole board shows on a shape, its form on it, along a path y(x). The largest gap is found between
 * stations by a parabola through the three around it, so that it varies smoothly with the shape.
 */
export function hollowOfShape(
  plan: SurfacePlan,
  shape: SurfaceShape,
  pathYMm: (xMm: number) => number,
  form: Form = noForm,
): HollowOfShape {
  const stepMm = plan.lengthMm / stations;
  const distances: number[] = [];
  const heights: number[] = [];
  for (let i = 0; i <= stations; i += 1) {
    distances.push(i * stepMm);
    const yMm = pathYMm(distances[i]);
    heights.push(heightMm(plan, shape, distances[i], yMm) + formMm(plan, form, distances[i], yMm));
  }
  const laid = layStraightedge(distances, heights);
  const i = Math.round(laid.atMm / stepMm);
  if (i === 0 || i === stations) return laid;
  const chordSlope = (heights[stations] - heights[0]) / plan.lengthMm;
  const gaps = [i - 1, i, i + 1].map((k) => {
    const underside = laid.hollowMm < 0 ? heights[0] + chordSlope * distances[k] : laid.undersideMm[k];
    return underside - heights[k];
  });
  const bend = gaps[0] - 2 * gaps[1] + gaps[2];
  if (bend === 0) return laid;
  const offset = Math.min(Math.max((0.5 * (gaps[0] - gaps[2])) / bend, -1), 1);
  return { hollowMm: gaps[1] - 0.25 * (gaps[0] - gaps[2]) * offset, atMm: laid.atMm + offset * stepMm };
}
