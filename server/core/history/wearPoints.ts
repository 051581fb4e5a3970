/**
 * The points of the wear line: what each visit measured, and what a fresh board is taken to be where nobody measured it.
 *
 * Where a survey found no worn place the deepest wear is 0, give or take what would just not have shown. A board that was dressed,
 * shaped or renewed and not measured again counts as unworn on the day of the work, ± `freshUMm`. Quick looks name no depth and give
 * no point. Depths in mm, u expanded.
 */
import type { Quantity } from "../units.ts";
import type { Findings, HistoryVisit } from "./history.ts";
import type { Life, Work } from "./life.ts";

/** What may be left of the wear after a dressing that nobody measured, mm (expanded; common practice, no source). */
export const freshUMm = 0.05;

export type WearPoint = {
  /** Null: nobody measured it, it is taken as fresh. */
  readonly visit: HistoryVisit | null;
  readonly work: Work | null;
  readonly day: number;
  readonly hoursInRun: number | null;
  readonly run: number;
  readonly depthMm: Quantity;
  readonly atLeast: boolean;
};

/** Oldest first. */
export function wearPoints({ visits, works }: Life): readonly WearPoint[] {
  const measured = visits.flatMap(({ visit, day, run, hoursInRun }): readonly WearPoint[] => {
    const wear = deepestWear(visit.findings);
    return wear === null ? [] : [{ visit, work: null, day, hoursInRun, run, ...wear }];
  });
  const fresh = works
    .filter(({ after }) => !after.some(({ findings }) => deepestWear(findings) !== null))
    .map((work): WearPoint => {
      const depthMm = { value: 0, u: freshUMm };
      return { visit: null, work, day: work.day, hoursInRun: 0, run: work.run, depthMm, atLeast: false };
    });
  return [...fresh, ...measured].sort((one, other) => one.run - other.run || one.day - other.day);
}

/** Null where no wear was looked for. */
export function deepestWear({
  deepest,
  unseenMm,
}: Findings): { readonly depthMm: Quantity; readonly atLeast: boolean } | null {
  if (deepest) return { depthMm: deepest.depthMm, atLeast: deepest.atLeast };
  return unseenMm === null ? null : { depthMm: { value: 0, u: unseenMm }, atLeast: false };
}
