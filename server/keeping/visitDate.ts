/**
 * The day of a visit: a calendar day or an instant as somebody wrote it (ISO 8601), checked to be real and likely.
 *
 * In: "2026-11-25" or "2026-11-25T09:30+01:00", and the time now. Out: the day as it stood where it was written, or a fault with
 * what to do. Days before 1900 and more than a day ahead of the clock are slips; a day ahead is another time zone.
 */
import type { Fault } from "../core/fault.ts";
import { shownSafely } from "../core/readings/shownSafely.ts";

export type VisitDate =
  | { readonly outcome: "a day"; readonly date: string }
  | { readonly outcome: "ahead"; readonly date: string; readonly fault: Fault }
  | { readonly outcome: "faulty"; readonly fault: Fault };

const dayOrInstant =
  /^(\d{4}-\d{2}-\d{2})(?:[T ](\d{2}):(\d{2})(?::(\d{2})(?:[.,]\d{1,9})?)?(?:Z|[+-](\d{2}):?(\d{2})?)?)?$/i;
const firstDay = "1900-01-01";
const dayMs = 86_400_000;

export function visitDate(written: string, now: Date): VisitDate {
  const text = written.trim();
  const match = dayOrInstant.exec(text);
  if (match === null) {
    const saw = text === "" ? "the visit has no date" : `the date is ${shownSafely(text)}`;
    return { outcome: "faulty", fault: dateFault(text === "" ? "date-missing" : "not-a-date", saw) };
  }
  const [, date = "", hour = "0", minute = "0", second = "0", zoneHour = "0", zoneMinute = "0"] = match;
  const isClockTime = Number(hour) < 24 && Number(minute) < 60 && Number(second) <= 60;
  const isZone = Number(zoneHour) <= 14 && Number(zoneMinute) < 60;
  if (!isCalendarDay(date) || !isClockTime || !isZone) {
    return { outcome: "faulty", fault: dateFault("not-a-date", `there is no ${shownSafely(text)} in the calendar`) };
  }
  if (date < firstDay)
    return { outcome: "faulty", fault: dateFault("date-too-early", `the date is ${date}, before 1900`) };
  if (Date.parse(date) > now.getTime() + dayMs) {
    const today = now.toISOString().slice(0, 10);
    return {
      outcome: "ahead",
      date,
      fault: dateFault("date-ahead", `the date is ${date}, and by this machine's clock today is ${today}`),
    };
  }
  return { outcome: "a day", date };
}

/** The calendar carries a 30th of February over into March: such a day does not come back as it was. */
function isCalendarDay(date: string): boolean {
  const ms = Date.parse(`${date}T00:00:00Z`);
  return Number.isFinite(ms) && new Date(ms).toISOString().slice(0, 10) === date;
}

function dateFault(code: string, saw: string): Fault {
  const remedy = "Give the day of the visit as year-month-day, such as 2026-11-25.";
  return { where: "visit", line: null, column: null, code, saw, remedy };
}
