/**
 * The history of one instrument: wear, thickness and works over the years, how fast it wears, and when it is likely to be due.
 *
 * All visits that count, in any order (best oldest first: of visits on the same day the order given holds) -> `History`. With no
 * visit everything is empty or "not yet". Lengths in mm; every `u` is expanded (coverage factor 2).
 */
import { daysPerYear } from "./days.ts";
import { dressingOutlook } from "./dressingOutlook.ts";
import { endOutlook } from "./endOutlook.ts";
import type { History, HistoryVisit, Outlook, ThicknessAtVisit, WearAtVisit } from "./history.ts";
import { type Life, lifeOf } from "./life.ts";
import { deepestWear, type WearPoint, wearPoints } from "./wearPoints.ts";
import { growthPerYear, ratePerHundredHours, ratePerYear } from "./wearRate.ts";
import { worksOf } from "./worksOf.ts";

export function historyOf(visits: readonly HistoryVisit[]): History {
  const life = lifeOf(visits);
  const points = wearPoints(life);
  return {
    wear: wearTimeline(life),
    thickness: thicknessTimeline(life),
    works: worksOf(life),
    perYear: ratePerYear(points),
    perHundredHours: ratePerHundredHours(points),
    outlook: outlookFor(life, points),
  };
}

/** The outlook alone: what a store keeps beside an instrument for its due list. */
export function outlookOf(visits: readonly HistoryVisit[]): Outlook {
  const life = lifeOf(visits);
  return outlookFor(life, wearPoints(life));
}

function outlookFor(life: Life, points: readonly WearPoint[]): Outlook {
  const latest = life.visits.at(-1);
  if (latest === undefined) {
    const none = { told: "not yet", why: "No visit yet." } as const;
    return { dressing: none, end: none };
  }
  const growth = growthPerYear(points);
  const dressing = dressingOutlook(points, growth, latest.visit.findings.dressAtMm);
  return { dressing, end: endOutlook(life, dressing, growth) };
}

function wearTimeline({ visits }: Life): readonly WearAtVisit[] {
  return visits.flatMap(({ visit, day, run }) => {
    const wear = deepestWear(visit.findings);
    return wear === null ? [] : [{ visitId: visit.id, date: visit.date, years: since(visits, day), ...wear, run }];
  });
}

function thicknessTimeline({ visits }: Life): readonly ThicknessAtVisit[] {
  return visits.flatMap(({ visit, day }) => {
    const { edge, edgeLimitMm } = visit.findings;
    if (edge === null) return [];
    const edgeMm = { value: edge.value, u: edge.u };
    return [{ visitId: visit.id, date: visit.date, years: since(visits, day), edgeMm, limitMm: edgeLimitMm }];
  });
}

function since(visits: Life["visits"], day: number): number {
  return (day - (visits[0]?.day ?? day)) / daysPerYear;
}
