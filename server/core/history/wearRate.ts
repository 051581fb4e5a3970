/**
 * How fast the deepest place wears: a rate with the interval that holds the true one about 95 of 100 times, or why it can't be told.
 *
 * Wear points of a board's life -> growth a year, and a hundred hours played. The growth is one for all runs of wear, each run with a
 * start of its own (`commonGrowth.ts`). Wear does not heal: an interval that reaches down to nothing tells no rate, and a depth that
 * fell with no work written down is asked about. What the tip could not bottom: late in its run it makes the rate "at least";
 * early, no rate is told. Depths in mm.
 */
import { coverageFactor } from "../units.ts";
import { commonGrowth, type Growth, type GrowthPoint } from "./commonGrowth.ts";
import { dayOf, daysPerYear } from "./days.ts";
import type { WearRate } from "./history.ts";
import { freshUMm, type WearPoint } from "./wearPoints.ts";
import { countInWords, dayInWords, lengthInWords, rateInWords } from "./words.ts";

/** A scale that growth is told on. */
type Scale = {
  readonly of: (point: WearPoint) => number | null;
  /** Nearer together than this is no growth (common practice, no source). */
  readonly leastSpan: number;
  readonly spanInWords: (span: number) => string;
  readonly inWords: string;
};

const years: Scale = {
  of: ({ day }) => day / daysPerYear,
  leastSpan: 28 / daysPerYear,
  spanInWords: (span) => `${countInWords(Math.round(span * daysPerYear), "day")} apart: at least 4 weeks are needed`,
  inWords: "a year",
};

const hundredHours: Scale = {
  of: ({ hoursInRun }) => (hoursInRun === null ? null : hoursInRun / 100),
  leastSpan: 0.2,
  spanInWords: (span) => `${countInWords(Math.round(span * 100), "hour")} of playing apart: at least 20 are needed`,
  inWords: "in a hundred hours played",
};

/** A growth that can be reckoned with (its interval may reach below nothing), or why there is none. */
export type GrowthTold =
  | { readonly told: "growth"; readonly growth: Growth }
  | { readonly told: "not yet"; readonly why: string };

export function growthPerYear(points: readonly WearPoint[]): GrowthTold {
  return growthOn(years, points);
}

export function ratePerYear(points: readonly WearPoint[]): WearRate {
  return rateOn(years, points, growthOn(years, points));
}

/** Only runs with every hour known count. */
export function ratePerHundredHours(points: readonly WearPoint[]): WearRate {
  const unknown = new Set(points.filter(({ hoursInRun }) => hoursInRun === null).map(({ run }) => run));
  const known = points.filter(({ run }) => !unknown.has(run));
  if (unknown.size > 0 && !hasTwoInARun(known) && hasTwoInARun(points)) {
    return { told: "not yet", why: "How long it was played between the visits isn't written down for every visit." };
  }
  return rateOn(hundredHours, known, growthOn(hundredHours, known));
}

function growthOn(scale: Scale, points: readonly WearPoint[]): GrowthTold {
  const notYet = (why: string): GrowthTold => ({ told: "not yet", why });
  const measured = points.filter(({ visit }) => visit !== null);
  if (measured.length === 0) return notYet("No full survey yet: a quick look names no depth of wear.");
  if (measured.length === 1 && points.length === 1) return notYet("One survey only: growth shows from the second on.");
  if (!hasTwoInARun(points)) {
    return notYet("Only one survey since each dressing: growth shows between two with no dressing between them.");
  }
  const span = longestSpan(scale, points);
  if (span < scale.leastSpan) return notYet(`The surveys are only ${scale.spanInWords(span)} to tell growth.`);
  const healed = healedBetween(points);
  if (healed) return notYet(healed);
  const growth = commonGrowth(growthPoints(scale, points));
  if (growth === null) return notYet("The surveys are too near together to tell growth.");
  if (growth.hidden === "either way") {
    const first = points.find(({ atLeast }) => atLeast)?.day ?? 0;
    return notYet(
      `On ${dayInWords(dayOf(first))} a rut may have been deeper than the tip could reach: how much it has grown since can't be told. Read the strings' paths with a finer tip.`,
    );
  }
  return { told: "growth", growth };
}

function rateOn(scale: Scale, points: readonly WearPoint[], told: GrowthTold): WearRate {
  if (told.told === "not yet") return told;
  const { growth } = told;
  const interval = rateInterval(growth);
  if (interval[0] <= 0) {
    const most = growth.hidden === "nothing" && interval[1] > 0;
    const bound = most ? `: at most ${rateInWords(interval[1])} ${scale.inWords}` : "";
    return { told: "not yet", why: `The growth so far is within the readings' uncertainty${bound}.` };
  }
  return {
    told: "rate",
    mm: growth.rateMm,
    interval,
    atLeast: growth.hidden === "at least",
    visits: points.filter(({ visit, run }) => visit !== null && isTelling(points, run)).length,
    assumed: assumedIn(points, growth),
  };
}

export function rateInterval({ rateMm, rateUMm, factor }: Growth): readonly [number, number] {
  return [rateMm - factor * rateUMm, rateMm + factor * rateUMm];
}

/** An uncertainty of nothing would outweigh every other visit: none is believed below this, standard, mm. */
const leastUMm = 0.0005;

function growthPoints(scale: Scale, points: readonly WearPoint[]): readonly GrowthPoint[] {
  return points.flatMap((point) => {
    const at = scale.of(point);
    if (at === null) return [];
    const { depthMm, run, atLeast } = point;
    return [{ at, depthMm: depthMm.value, uMm: Math.max(depthMm.u / coverageFactor, leastUMm), run, atLeast }];
  });
}

function hasTwoInARun(points: readonly WearPoint[]): boolean {
  return points.some(({ run }) => isTelling(points, run));
}

function isTelling(points: readonly WearPoint[], run: number): boolean {
  return points.filter((point) => point.run === run).length > 1;
}

function longestSpan(scale: Scale, points: readonly WearPoint[]): number {
  const runs = new Set(points.map(({ run }) => run));
  const spans = [...runs].map((run) => {
    const ats = points.filter((point) => point.run === run).flatMap((point) => scale.of(point) ?? []);
    return ats.length === 0 ? 0 : Math.max(...ats) - Math.min(...ats);
  });
  return Math.max(...spans);
}

/** So many standard uncertainties shallower than before, with no work written down, is no scatter: once in a thousand pairs. */
const clearlyShallower = 3;

function healedBetween(points: readonly WearPoint[]): string | null {
  for (const [i, later] of points.entries()) {
    const earlier = points[i - 1];
    if (earlier === undefined || earlier.run !== later.run || later.atLeast) continue;
    const fallMm = earlier.depthMm.value - later.depthMm.value;
    const uMm = Math.hypot(earlier.depthMm.u, later.depthMm.u) / coverageFactor;
    if (fallMm <= clearlyShallower * uMm) continue;
    const [from, to] = [dayInWords(dayOf(earlier.day)), dayInWords(dayOf(later.day))];
    return `The deepest wear was ${lengthInWords(earlier.depthMm.value)} on ${from} and ${lengthInWords(later.depthMm.value)} on ${to}, and no dressing is written down between: wear doesn't heal. If the board was dressed, write it down.`;
  }
  return null;
}

/** What was taken as usual on the way to the growth, in a luthier's words. */
function assumedIn(points: readonly WearPoint[], growth: Growth): readonly string[] {
  const fresh = points.flatMap(({ work, run }) =>
    work !== null && isTelling(points, run)
      ? [
          `taken as unworn (within ${lengthInWords(freshUMm)}) after the ${workInWords[work.work]} of ${dayInWords(dayOf(work.day))}`,
        ]
      : [],
  );
  const unseen = points.some(({ visit, run }) => visit?.findings.deepest === null && isTelling(points, run));
  return [
    ...(growth.runs > 1 ? ["the same growth before and after each dressing"] : []),
    ...fresh,
    ...(unseen ? ["where no wear showed: none, but for what would not have shown"] : []),
  ];
}

const workInWords = { dressed: "dressing", shaped: "shaping", "new board": "new board" } as const;
