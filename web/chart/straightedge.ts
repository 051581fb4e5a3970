/**
 * A straightedge as it really lies: one straight line, touching where the examination has it touch about its largest gap.
 *
 * The examination's straightedge bridges every hollow of the profile, so on a humped board it bends over the hump, as no rule of steel does. Here
 * it lies on the two touching points about the largest gap and goes on straight; it is drawn as far as its clearance stays
 * near that gap (on a hump it would soon stand off the board). Heights and places in mm, in the gauge's frame.
 */
import type { Profile } from "../../server/core/examination.ts";

export type LaidStraightedge = {
  /** Where its gap is largest, in the profile's list. */
  readonly at: number;
  readonly gapMm: number;
  /** From and to, in the profile's list. */
  readonly from: number;
  readonly to: number;
  readonly heightsMm: readonly number[];
};

/** Clearance beyond the largest gap up to which the rule is drawn. */
const slack = 1.05;
const leastClearanceMm = 0.2;

export function layStraightedge(profile: Profile): LaidStraightedge {
  const { xMm, straightedgeMm, measuredMm } = profile;
  const gaps = straightedgeMm.map((z, i) => z - measuredMm[i]!);
  const gapMm = Math.max(...gaps);
  const at = Math.min(gaps.indexOf(gapMm), xMm.length - 2);
  const slope = (straightedgeMm[at + 1]! - straightedgeMm[at]!) / (xMm[at + 1]! - xMm[at]!);
  const heightsMm = xMm.map((x) => straightedgeMm[at]! + slope * (x - xMm[at]!));
  const mostMm = Math.max(gapMm * slack, leastClearanceMm);
  const isNear = (i: number) => heightsMm[i]! - measuredMm[i]! <= mostMm;
  let from = at;
  while (from > 0 && isNear(from - 1)) from -= 1;
  let to = at;
  while (to < xMm.length - 1 && isNear(to + 1)) to += 1;
  return { at, gapMm, from, to, heightsMm };
}
