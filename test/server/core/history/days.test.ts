/** Calendar days as numbers, against the calendar of the machine (ECMAScript's Date in UTC) and known days. */
import { expect, test } from "vitest";
import { dayNumber, dayOf } from "../../../../server/core/history/days.ts";

test("every day from 1890 to 2110 has the number that the machine's calendar gives it, and comes back as itself", () => {
  const dayMs = 86_400_000;
  for (let ms = Date.UTC(1890, 0, 1); ms < Date.UTC(2110, 0, 1); ms += dayMs) {
    const date = new Date(ms).toISOString().slice(0, 10);
    if (dayNumber(date) !== ms / dayMs) throw new Error(`${date}: ${dayNumber(date)}`);
    if (dayOf(ms / dayMs) !== date) throw new Error(`${date} comes back as ${dayOf(ms / dayMs)}`);
  }
  expect(dayNumber("1970-01-01")).toBe(0);
  expect(dayNumber("2000-03-01")).toBe(11017);
});

test("a part of a day is dropped, and an instant counts as its day", () => {
  expect(dayOf(11017.99)).toBe("2000-03-01");
  expect(dayNumber("2000-03-01T23:59:59Z")).toBe(11017);
});

test("what is no day is refused", () => {
  for (const text of ["", "2026", "2026-13-01", "2026-00-10", "2026-01-32", "01.02.2026", "2026-1-2"]) {
    expect(() => dayNumber(text), text).toThrow(RangeError);
  }
});
