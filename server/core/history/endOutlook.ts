/**
 * When the board is likely at its end: the first dressing that falls due and would leave the edges too thin.
 *
 * Edge left, what a dressing spends, how long until the next one is due and between later ones -> a range of days, by interval
 * arithmetic: the thinnest edge with the dearest dressings and the fastest wear, and the other way round. Lengths in mm.
 *
 *   edge now      the latest measuring, less what was taken since (as planned; else as usual)
 *   a dressing    what this board's dressings took, as measured; else as planned; else the usual spend, give or take a quarter
 *   between two   the depth that calls for a dressing over the growth, from a fresh board on
 *
 * The shares are common practice, no source.
 */
import { dayNumber, dayOf, daysPerYear } from "./days.ts";
import { horizonYears, rangeInWords } from "./dressingOutlook.ts";
import type { When } from "./history.ts";
import type { Life, Work } from "./life.ts";
import type { GrowthTold } from "./wearRate.ts";
import { rateInterval } from "./wearRate.ts";
import { countInWords, dayInWords, lengthInWords, monthInWords, quantityInWords } from "./words.ts";
import { takenMm } from "./worksOf.ts";

type Interval = readonly [from: number, to: number];
const usualShare: Interval = [0.75, 1.25];
/** Whatever the record says: a dressing takes at least half the depth of wear that it removes. */
const leastShareOfWear = 0.5;
/** A whole number of dressings that rounding left a hair short still counts. */
const roundingMm = 1e-9;

export function endOutlook(life: Life, dressing: When, told: GrowthTold): When {
  const latest = life.visits.at(-1)?.visit;
  if (latest === undefined) return { told: "not yet", why: "No visit yet." };
  const { edgeLimitMm, dressAtMm } = latest.findings;
  const edge = edgeNow(life);
  if (typeof edge === "string") return { told: "not yet", why: edge };
  const limit = lengthInWords(edgeLimitMm);
  if (edge.value < edgeLimitMm) {
    const isClear = edge.value + edge.u <= edgeLimitMm;
    const doubt = isClear ? "" : " (within the measurement's uncertainty)";
    const says = `The thinnest edge is ${quantityInWords(edge)}${edge.reckoned}; at least ${limit} has to stay${doubt}.`;
    return { told: "reached", since: edge.date, says };
  }

  const spend = spendOfOne(life);
  const spare: Interval = [edge.value - edge.u - edgeLimitMm, edge.value + edge.u - edgeLimitMm];
  const fewest = Math.max(0, Math.floor((spare[0] + roundingMm) / spend[1]));
  const most = Math.max(0, Math.floor((spare[1] + roundingMm) / spend[0]));
  const room = `${roomInWords(fewest, most)} above ${limit}`;
  if (dressing.told === "not yet") {
    return { told: "not yet", why: `${room}; when they are due can't be told yet. ${dressing.why}` };
  }
  if (dressing.told === "reached" && most === 0) {
    return { told: "reached", since: dressing.since, says: `${room}, and one is due.` };
  }
  if (told.told === "not yet" && most > 0) {
    return { told: "not yet", why: `${room}; how long that will last can't be told yet. ${told.why}` };
  }

  const latestDay = life.visits.at(-1)?.day ?? 0;
  const due: Interval =
    dressing.told === "reached"
      ? [latestDay, latestDay]
      : [dayNumber(dressing.from), dressing.to === null ? Number.POSITIVE_INFINITY : dayNumber(dressing.to)];
  const between = daysBetween(told, dressAtMm);
  const fromDay = due[0] + fewest * between[0];
  const toDay = due[1] + (most === 0 ? 0 : most * between[1]);
  return likely(room, fromDay, toDay, latestDay);
}

/** The thinnest edge as it is likely to be now, with the day it was measured; or why it can't be told. */
function edgeNow(life: Life): { value: number; u: number; date: string; reckoned: string } | string {
  const measured = life.visits.findLast(({ visit }) => visit.findings.edge !== null);
  const since = life.works.filter(({ run }) => run > (measured?.run ?? -1));
  const renewed = since.findLast(({ work }) => work === "new board");
  if (renewed) return `The thickness of the new board of ${dayInWords(renewed.visit.date)} was not measured.`;
  const edge = measured?.visit.findings.edge;
  if (!measured || !edge) return "The thickness of the edges was never measured.";
  const spends = since.map((work) => spendNotMeasured(work));
  const [least, most] = sumOf(spends);
  const names = since.map(({ visit }) => dayInWords(visit.date)).join(" and ");
  return {
    value: edge.value - (least + most) / 2,
    u: edge.u + (most - least) / 2,
    date: since.at(-1)?.visit.date ?? measured.visit.date,
    reckoned: since.length === 0 ? "" : `, reckoning what the work of ${names} took`,
  };
}

/** As planned, else as usual. */
function spendNotMeasured({ before, visit }: Work): Interval {
  const findings = (before ?? visit).findings;
  const planned = findings.planeOffMm;
  return planned ? [planned.value - planned.u, planned.value + planned.u] : usual(findings.dressingSpendMm);
}

function usual(spendMm: number): Interval {
  return [usualShare[0] * spendMm, usualShare[1] * spendMm];
}

/** What one dressing of this board spends at its thinnest edge. */
function spendOfOne(life: Life): Interval {
  const latest = life.visits.at(-1)?.visit.findings;
  const dressings = life.works.filter(({ work, run }) => work === "dressed" && !isOfFormerBoard(life, run));
  const taken = dressings.flatMap((work) => takenMm(life, work) ?? []);
  const planned = dressings.flatMap(({ before }) => before?.findings.planeOffMm ?? []);
  const record = taken.length > 0 ? taken : planned;
  const [least, most] =
    record.length === 0
      ? usual(latest?.dressingSpendMm ?? 0)
      : [Math.min(...record.map(({ value, u }) => value - u)), Math.max(...record.map(({ value, u }) => value + u))];
  const floorMm = leastShareOfWear * (latest?.dressAtMm ?? 0);
  return [Math.max(least, floorMm), Math.max(most, floorMm)];
}

function isOfFormerBoard({ works }: Life, run: number): boolean {
  return works.some((later) => later.work === "new board" && later.run > run);
}

/** From one dressing to the next: at the fastest likely growth, at the slowest. */
function daysBetween(told: GrowthTold, dressAtMm: number): Interval {
  if (told.told === "not yet") return [0, Number.POSITIVE_INFINITY];
  const [slowest, fastest] = rateInterval(told.growth);
  const isOpen = told.growth.hidden !== "nothing" || fastest <= 0;
  return [
    isOpen ? 0 : (dressAtMm / fastest) * daysPerYear,
    slowest <= 0 ? Number.POSITIVE_INFINITY : (dressAtMm / slowest) * daysPerYear,
  ];
}

function likely(room: string, fromDay: number, toDay: number, latestDay: number): When {
  const horizonDay = latestDay + horizonYears * daysPerYear;
  if (fromDay > horizonDay) {
    const says = `${room}: the board is likely to last ${horizonYears} years and more.`;
    return { told: "range", from: dayOf(horizonDay), to: null, says };
  }
  const from = dayOf(fromDay);
  if (toDay > horizonDay) {
    const says = `${room}: the board is not likely at its end before ${monthInWords(from)}; it may last much longer.`;
    return { told: "range", from, to: null, says };
  }
  const to = dayOf(Math.ceil(toDay));
  return { told: "range", from, to, says: `${room}: the board is likely at its end ${rangeInWords(from, to)}.` };
}

function roomInWords(fewest: number, most: number): string {
  if (most === 0) return "No room for another dressing";
  const dressings = countInWords(most, "dressing");
  if (fewest === 0) return `Room for at most ${dressings}`;
  return fewest === most ? `Room for ${dressings}` : `Room for ${fewest} to ${dressings}`;
}

function sumOf(intervals: readonly Interval[]): Interval {
  return intervals.reduce<Interval>((sum, [from, to]) => [sum[0] + from, sum[1] + to], [0, 0]);
}
