/**
 * Calendar days as numbers, so that time between visits can be reckoned: no clock, no time zones.
 *
 * "2026-11-25" <-> whole days since 1970-01-01, Gregorian calendar. A year is 365.25 days. An instant ("2026-11-25T09:30Z") counts
 * as its day. Throws a RangeError for what is no day: dates are checked before they get here.
 *
 * Equation: H. F. Fliegel, T. C. Van Flandern, Communications of the ACM 11 (1968) 657 (from memory), with years that begin in
 * March, so that the leap day is the last.
 */

export const daysPerYear = 365.25;

/** dayNumber("1970-01-01") = 0, dayNumber("2000-03-01") = 11017. */
export function dayNumber(date: string): number {
  const match = /^(\d{4})-(\d{2})-(\d{2})(?:T|$)/.exec(date);
  const [year, month, day] = match ? [Number(match[1]), Number(match[2]), Number(match[3])] : [0, 0, 0];
  if (month < 1 || month > 12 || day < 1 || day > 31) throw new RangeError(`no calendar day: ${date}`);
  const [marchYear, marchMonth] = month > 2 ? [year, month - 3] : [year - 1, month + 9];
  return daysToMarchYear(marchYear) + dayOfMarchMonth(marchMonth) + day - 1;
}

/** dayOf(11017) = "2000-03-01"; parts of a day are dropped. */
export function dayOf(days: number): string {
  const whole = Math.floor(days);
  let marchYear = 1970 + Math.floor(whole / 365.2425);
  while (daysToMarchYear(marchYear) > whole) marchYear -= 1;
  while (daysToMarchYear(marchYear + 1) <= whole) marchYear += 1;
  const inYear = whole - daysToMarchYear(marchYear);
  const marchMonth = Math.floor((5 * inYear + 2) / 153);
  const day = inYear - dayOfMarchMonth(marchMonth) + 1;
  const [year, month] = marchMonth < 10 ? [marchYear, marchMonth + 3] : [marchYear + 1, marchMonth - 9];
  return `${String(year).padStart(4, "0")}-${twoDigits(month)}-${twoDigits(day)}`;
}

/** From the first of March of a year to 1970-01-01, whole days. */
function daysToMarchYear(year: number): number {
  return 365 * year + Math.floor(year / 4) - Math.floor(year / 100) + Math.floor(year / 400) - 719468;
}

/** Days from the first of March to the first of a month, counted from March = 0: five months have 153 days. */
function dayOfMarchMonth(month: number): number {
  return Math.floor((153 * month + 2) / 5);
}

function twoDigits(number: number): string {
  return String(number).padStart(2, "0");
}
