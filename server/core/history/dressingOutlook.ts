/**
 * When the deepest place is likely to reach the depth that calls for a dressing.
 *
 * Growth, the present run's line and the limit -> a range of days from the latest survey on. Depth still to go over growth is a ratio of
 * two uncertain quantities, so its range is Fieller's (`ratioSet.ts`). Where growth is not told yet, the fastest that the
 * readings allow still says "not before …". Depths in mm.
 */
import { dayOf, daysPerYear } from "./days.ts";
import type { When } from "./history.ts";
import { ratioSet } from "./ratioSet.ts";
import type { WearPoint } from "./wearPoints.ts";
import { type GrowthTold, rateInterval } from "./wearRate.ts";
import { dayInWords, lengthInWords, monthInWords, quantityInWords } from "./words.ts";

/** Farther ahead nothing is told, years. */
export const horizonYears = 50;

/** `points` of the whole life, oldest first. */
export function dressingOutlook(points: readonly WearPoint[], told: GrowthTold, dressAtMm: number): When {
  const latest = points.at(-1);
  if (latest === undefined) return { told: "not yet", why: "No full survey yet: a quick look names no depth of wear." };
  const present = points.filter(({ run }) => run === latest.run);
  const reached = reachedSince(present, dressAtMm);
  if (reached) return reached;
  if (told.told === "not yet") return told;

  const { growth } = told;
  const line = growth.lines.get(latest.run);
  if (line === undefined) return { told: "not yet", why: "No survey since the last dressing." };
  const set = ratioSet(
    { value: dressAtMm - line.depthMm, variance: line.uMm ** 2 },
    { value: growth.rateMm, variance: growth.rateUMm ** 2 },
    0,
    growth.factor,
  );
  const day = (years: number): number => (line.at + years) * daysPerYear;
  const isHidden = growth.hidden === "at least" || present.some(({ atLeast }) => atLeast);
  const isGrowing = rateInterval(growth)[0] > 0;
  if (set.kind === "between" && isGrowing) {
    const toDay = Math.max(day(set.to), latest.day);
    return likely(isHidden ? latest.day : Math.max(day(set.from), latest.day), toDay, latest.day, dressAtMm);
  }
  if (set.kind === "outside" && !isHidden && day(set.from) > latest.day) {
    return likely(day(set.from), Number.POSITIVE_INFINITY, latest.day, dressAtMm);
  }
  return { told: "not yet", why: "The growth so far is within the readings' uncertainty." };
}

/** Since the first survey of the present run from which on every one has stood at the limit or over it. */
function reachedSince(present: readonly WearPoint[], dressAtMm: number): When | null {
  const lastUnder = present.findLastIndex(({ depthMm }) => depthMm.value < dressAtMm);
  const first = present[lastUnder + 1];
  const latest = present.at(-1);
  if (first === undefined || latest === undefined) return null;
  const { value, u } = latest.depthMm;
  const isClear = value - u >= dressAtMm;
  const over = `${quantityInWords(latest.depthMm)} on ${dayInWords(dayOf(latest.day))}; a dressing is called for at ${lengthInWords(dressAtMm)}`;
  const doubt = isClear || latest.atLeast ? "" : " (within the readings' uncertainty)";
  return { told: "reached", since: dayOf(first.day), says: `${over}${doubt}.` };
}

function likely(fromDay: number, toDay: number, latestDay: number, dressAtMm: number): When {
  const horizonDay = latestDay + horizonYears * daysPerYear;
  const depth = lengthInWords(dressAtMm);
  if (fromDay > horizonDay) {
    const says = `The wear is not likely to reach ${depth} within ${horizonYears} years.`;
    return { told: "range", from: dayOf(horizonDay), to: null, says };
  }
  const from = dayOf(fromDay);
  if (toDay > horizonDay) {
    const says = `The wear is not likely to reach ${depth} before ${monthInWords(from)}; it may be much later.`;
    return { told: "range", from, to: null, says };
  }
  const to = dayOf(Math.ceil(toDay));
  const isNow = fromDay <= latestDay;
  const says = isNow
    ? `The wear is likely to reach ${depth} by ${monthInWords(to)}; it may have already.`
    : `The wear is likely to reach ${depth} ${rangeInWords(from, to)}.`;
  return { told: "range", from, to, says };
}

/** "in May 2027", "between May 2027 and June 2028". */
export function rangeInWords(from: string, to: string): string {
  const [first, last] = [monthInWords(from), monthInWords(to)];
  return first === last ? `in ${first}` : `between ${first} and ${last}`;
}
