/**
 * The works of a board's life as history tells them: what was planned, what was taken, what wear was left.
 *
 * Life -> works, oldest first. Wood taken is the loss at the thinnest edge, between the last measuring of thickness before the work
 * and the first one after it, with no other work between; wear does not reach the edges. Lengths in mm, u expanded.
 */
import type { Quantity } from "../units.ts";
import { daysPerYear } from "./days.ts";
import type { WorkAtVisit } from "./history.ts";
import type { Life, Work } from "./life.ts";
import { deepestWear } from "./wearPoints.ts";

export function worksOf(life: Life): readonly WorkAtVisit[] {
  const firstDay = life.visits[0]?.day ?? 0;
  return life.works.map((work) => {
    const left = work.after.map(({ findings }) => deepestWear(findings)).find((wear) => wear !== null);
    return {
      visitId: work.visit.id,
      date: work.visit.date,
      years: (work.day - firstDay) / daysPerYear,
      work: work.work,
      plannedMm: work.before?.findings.planeOffMm ?? null,
      takenMm: takenMm(life, work),
      leftMm: left?.depthMm ?? null,
    };
  });
}

/** Null for a new board, and where thickness was not measured on both sides of the work. */
export function takenMm({ visits }: Life, { work, run }: Work): Quantity | null {
  if (work === "new board") return null;
  const edgesIn = (asked: number) =>
    visits.filter((visit) => visit.run === asked).flatMap(({ visit }) => visit.findings.edge ?? []);
  const before = edgesIn(run - 1).at(-1);
  const after = edgesIn(run)[0];
  if (before === undefined || after === undefined) return null;
  return { value: before.value - after.value, u: Math.hypot(before.u, after.u) };
}
