/** The day of a visit, as it may be written, and what is no such day. */
import { describe, expect, test } from "vitest";
import { visitDate } from "../../../server/keeping/visitDate.ts";

const now = new Date("2025-11-25T09:30:00Z");

describe("the day of a visit", () => {
  test.each([
    ["2025-11-25", "2025-11-25"],
    [" 2024-02-29 ", "2024-02-29"],
    ["1900-01-01", "1900-01-01"],
    ["2025-11-25T09:30", "2025-11-25"],
    ["2025-11-25T23:59:59.999Z", "2025-11-25"],
    ["2025-11-25t23:30:00+01:00", "2025-11-25"],
    ["2025-11-25 07:05:00-1130", "2025-11-25"],
    ["2025-11-25T07:05:00+05", "2025-11-25"],
  ])("written %s is %s, as it was where it was written", (written, date) => {
    expect(visitDate(written, now)).toEqual({ outcome: "a day", date });
  });

  test.each([
    ["", "date-missing"],
    ["today", "not-a-date"],
    ["25.11.2025", "not-a-date"],
    ["2025-11", "not-a-date"],
    ["2025-11-25Z", "not-a-date"],
    ["2026-02-30", "not-a-date"],
    ["2025-02-29", "not-a-date"],
    ["2025-13-01", "not-a-date"],
    ["2025-00-10", "not-a-date"],
    ["2025-11-00", "not-a-date"],
    ["2025-11-25T24:10", "not-a-date"],
    ["2025-11-25T10:60", "not-a-date"],
    ["2025-11-25T10:00+15:00", "not-a-date"],
    ["+022025-11-25", "not-a-date"],
    ["1899-12-31", "date-too-early"],
    ["2025-11-25\u0000", "not-a-date"],
    ["٢٠٢٥-١١-٢٥", "not-a-date"],
  ])("is refused where it is written %j", (written, code) => {
    const read = visitDate(written, now);
    expect(read).toMatchObject({ outcome: "faulty", fault: { where: "visit", line: null, code } });
  });

  test("may be a day ahead of this machine's clock, where it is tomorrow already, and no more", () => {
    expect(visitDate("2025-11-26", now).outcome).toBe("a day");
    expect(visitDate("2025-11-27", now)).toMatchObject({
      outcome: "ahead",
      date: "2025-11-27",
      fault: { code: "date-ahead", saw: expect.stringContaining("today is 2025-11-25") },
    });
  });
});
