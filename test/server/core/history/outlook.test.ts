/**
 * When a dressing is likely due, and when the board is at its end, by hand from made-up visits. Lengths in mm.
 *
 * Growth that is hardly uncertain (u 0.0002) keeps the arithmetic by hand: a range then is a day or two wide.
 */
import { describe, expect, test } from "vitest";
import { dayNumber } from "../../../../server/core/history/days.ts";
import type { When } from "../../../../server/core/history/history.ts";
import { outlookOf } from "../../../../server/core/history/historyOf.ts";
import { visitOn } from "../../../support/historyVisits.ts";
import { near } from "../../../support/near.ts";

function range(when: When): Extract<When, { told: "range" }> {
  if (when.told !== "range") throw new Error(when.told === "not yet" ? when.why : when.says);
  return when;
}

const why = (when: When): string => (when.told === "not yet" ? when.why : `told: ${when.says}`);
const sure = 0.0002;
/** 0.02 mm a year, 0.1 mm on 2025-01-01: 0.2 mm five years later. */
const steady = (edgeMm: number | null = null) => [
  visitOn("2021-01-01", { depthMm: 0.02, u: sure }),
  visitOn("2025-01-01", { depthMm: 0.1, u: sure, edgeMm, edgeUMm: 0.05 }),
];

describe("the next dressing", () => {
  test("is due when the line reaches the depth that calls for one", () => {
    const due = range(outlookOf(steady()).dressing);
    // 0.1 mm at 0.02 a year: 5 years; both depths ± 0.0005 (the least that is believed, standard): 1.96 · √2 · 0.0005 · 5 / 0.08 years.
    near(dayNumber(due.from), dayNumber("2030-01-01"), 60);
    near(dayNumber(due.to!), dayNumber("2030-01-01"), 60);
    expect(due.from < "2030-01-01" && "2030-01-01" < due.to!).toBe(true);
    expect(due.says).toBe("The wear is likely to reach 0.20 mm between November 2029 and February 2030.");
  });

  test("has no end, and says so, where growth may as well be none", () => {
    const visits = [
      visitOn("2021-01-01", { depthMm: 0.08, u: 0.04 }),
      visitOn("2025-01-01", { depthMm: 0.1, u: 0.04 }),
    ];
    const due = range(outlookOf(visits).dressing);
    expect(due.to).toBeNull();
    expect(due.says).toMatch(/^The wear is not likely to reach 0.20 mm before \w+ 20\d\d; it may be much later\.$/);
    // The fastest: rate 0.005 + 1.96 · √2 · 0.02/4 = 0.0189 a year from about 0.1 would take 5 years; the start's own doubt makes it sooner.
    expect(due.from > "2027-01-01" && due.from < "2030-06-01", due.from).toBe(true);
  });

  test("is reached where the latest survey is at the limit or over it, since the first that stayed there", () => {
    const visits = [
      ...steady(),
      visitOn("2030-06-01", { depthMm: 0.21, u: 0.02 }),
      visitOn("2031-06-01", { depthMm: 0.23, u: 0.02 }),
    ];
    expect(outlookOf(visits).dressing).toEqual({
      told: "reached",
      since: "2030-06-01",
      says: "0.23 ± 0.02 mm on 1 June 2031; a dressing is called for at 0.20 mm.",
    });
    const close = outlookOf([...visits.slice(0, 2), visitOn("2030-06-01", { depthMm: 0.2, u: 0.02 })]).dressing;
    expect(close).toMatchObject({ told: "reached", since: "2030-06-01" });
    expect(close.told === "reached" && close.says).toContain("(within the readings' uncertainty)");
  });

  test("goes by the depth that the latest visit says calls for one", () => {
    const deeper = steady().map((visit, i) =>
      i === 1 ? { ...visit, findings: { ...visit.findings, dressAtMm: 0.3 } } : visit,
    );
    near(dayNumber(range(outlookOf(deeper).dressing).from), dayNumber("2035-01-01"), 120);
  });

  test("after a dressing counts from the fresh board with the growth known from before", () => {
    const dressed = [
      visitOn("2015-01-01", { depthMm: 0.02, u: sure }),
      visitOn("2024-01-01", { depthMm: 0.2, u: sure, work: "dressed" }),
    ];
    const due = range(outlookOf(dressed).dressing);
    // 0.2 mm at 0.02 a year from 0 ± 0.05: 10 years, give or take 2.5 (1.96 standard of 0.025).
    near(dayNumber(due.from), dayNumber("2034-01-01") - 2.45 * 365.25, 40);
    near(dayNumber(due.to!), dayNumber("2034-01-01") + 2.45 * 365.25, 40);
  });

  test("may have come already where the tip could not bottom a rut, and comes by the latest day", () => {
    const hidden = steady().map((visit, i) =>
      i === 1 ? visitOn(visit.date, { depthMm: 0.1, u: sure, atLeast: true }) : visit,
    );
    const due = range(outlookOf(hidden).dressing);
    expect(due.from).toBe("2025-01-01");
    near(dayNumber(due.to!), dayNumber("2030-01-01"), 60);
    expect(due.says).toContain("it may have already");
  });

  test("may come sooner than the range says where the growth of an earlier run is only at least what it reads", () => {
    const visits = [
      visitOn("2015-01-01", { depthMm: 0.02, u: sure }),
      visitOn("2024-01-01", { depthMm: 0.2, u: sure, atLeast: true, work: "dressed" }),
    ];
    expect(range(outlookOf(visits).dressing).from).toBe("2024-01-01");
  });

  test("farther off than fifty years is told as that", () => {
    const slow = [
      visitOn("2021-01-01", { depthMm: 0.02, u: sure }),
      visitOn("2025-01-01", { depthMm: 0.0225, u: sure }),
    ];
    expect(outlookOf(slow).dressing).toMatchObject({
      told: "range",
      to: null,
      says: "The wear is not likely to reach 0.20 mm within 50 years.",
    });
  });

  test("can't be told from one survey, or from none", () => {
    expect(why(outlookOf(steady().slice(1)).dressing)).toContain("One survey only");
    expect(why(outlookOf([]).dressing)).toBe("No visit yet.");
    expect(why(outlookOf([visitOn("2025-01-01", { depthMm: "not looked" })]).dressing)).toContain("quick look");
  });
});

describe("the board's end", () => {
  test("can't be told where thickness was never measured, and says so", () => {
    expect(why(outlookOf(steady()).end)).toBe("The thickness of the edges was never measured.");
  });

  test("is the first dressing that falls due and would leave the edges too thin", () => {
    // 4.9 ± 0.05 above 4: 0.85 to 0.95. A usual dressing, 0.3 give or take a quarter, 0.225 to 0.375: room for 2 to 4.
    const end = range(outlookOf(steady(4.9)).end);
    expect(end.says).toMatch(/^Room for 2 to 4 dressings above 4\.00 mm: the board is likely at its end between /);
    // The first in 2030, each later one 0.2/0.02 = 10 years on: from 2050 to 2070.
    near(dayNumber(end.from), dayNumber("2050-01-01"), 365);
    near(dayNumber(end.to!), dayNumber("2070-01-01"), 700);
  });

  test("is the very next dressing where there is no room for one", () => {
    const { dressing, end } = outlookOf(steady(4.1));
    expect(range(end)).toMatchObject({ from: range(dressing).from, to: range(dressing).to });
    expect(range(end).says).toContain("No room for another dressing above 4.00 mm");
  });

  test("is reached where the edge is under the limit, and tells whether clearly", () => {
    expect(outlookOf(steady(3.8)).end).toEqual({
      told: "reached",
      since: "2025-01-01",
      says: "The thinnest edge is 3.80 ± 0.05 mm; at least 4.00 mm has to stay.",
    });
    const close = outlookOf(steady(3.98)).end;
    expect(close.told === "reached" && close.says).toContain("within the measurement's uncertainty");
  });

  test("is reached where a dressing is due and there is no room for it", () => {
    const visits = [...steady(), visitOn("2030-06-01", { depthMm: 0.25, u: 0.02, edgeMm: 4.1 })];
    expect(outlookOf(visits).end).toEqual({
      told: "reached",
      since: "2030-06-01",
      says: "No room for another dressing above 4.00 mm, and one is due.",
    });
  });

  test("can't be told where a dressing is due and growth isn't known: only how many there is room for", () => {
    const visits = [
      visitOn("2021-01-01", { depthMm: 0.2, atLeast: true }),
      visitOn("2025-01-01", { depthMm: 0.25, edgeMm: 4.3 }),
    ];
    expect(outlookOf(visits).dressing.told).toBe("reached");
    expect(why(outlookOf(visits).end)).toMatch(
      /^Room for at most 1 dressing above 4\.00 mm; how long that will last can't be told yet\. On 1 January 2021 a rut/,
    );
  });

  test("reckons off what a dressing took that nobody measured after: as planned", () => {
    const visits = [
      visitOn("2015-01-01", { depthMm: 0.02, u: sure }),
      visitOn("2024-01-01", { depthMm: 0.2, u: sure, work: "dressed", edgeMm: 4.3, planMm: 0.4 }),
    ];
    const { end } = outlookOf(visits);
    // 4.3 − 0.4 = 3.9; ± 0.05 and the plan's ± 0.03.
    expect(end).toEqual({
      told: "reached",
      since: "2024-01-01",
      says: "The thinnest edge is 3.90 ± 0.08 mm, reckoning what the work of 1 January 2024 took; at least 4.00 mm has to stay.",
    });
  });

  test("goes by what this board's own dressings took, where that was measured", () => {
    const visits = [
      visitOn("2011-01-01", { depthMm: 0.02, u: sure }),
      visitOn("2020-01-01", { id: "b", depthMm: 0.2, u: sure, edgeMm: 5, edgeUMm: 0.01, work: "dressed", planMm: 0.9 }),
      visitOn("2020-01-02", { depthMm: 0, u: sure, edgeMm: 4.55, edgeUMm: 0.01, after: "b" }),
    ];
    // It took 0.45 ± 0.0141 (not 0.9 as planned, nor 0.3 as usual): 0.55 ± 0.01 above the limit leave room for exactly one.
    expect(range(outlookOf(visits).end).says).toMatch(/^Room for 1 dressing above 4\.00 mm/);
  });

  test("of a new board is told only once that board was measured", () => {
    const renewed = [
      visitOn("2015-01-01", { depthMm: 0.02, u: sure, edgeMm: 4.2 }),
      visitOn("2024-01-01", { depthMm: 0.2, u: sure, work: "new board" }),
    ];
    expect(why(outlookOf(renewed).end)).toBe("The thickness of the new board of 1 January 2024 was not measured.");
    const measured = [...renewed, visitOn("2024-01-02", { depthMm: 0, u: sure, edgeMm: 6, after: "2024-01-01" })];
    expect(range(outlookOf(measured).end).says).toContain("Room for");
  });

  test("of a new board does not go by what the old one's dressings took", () => {
    const visits = [
      visitOn("2005-01-01", { depthMm: 0.02, u: sure }),
      visitOn("2014-01-01", { id: "b", depthMm: 0.2, u: sure, edgeMm: 5, work: "dressed" }),
      visitOn("2014-01-02", { depthMm: 0, u: sure, edgeMm: 4.2, after: "b" }),
      visitOn("2024-01-01", { id: "n", depthMm: 0.2, u: sure, work: "new board" }),
      visitOn("2024-01-02", { depthMm: 0, u: sure, edgeMm: 4.9, after: "n" }),
    ];
    // The old one lost 0.8: there would be room for one. As usual, 0.225 to 0.375, for 2 to 4.
    expect(range(outlookOf(visits).end).says).toMatch(/^Room for 2 to 4 dressings/);
  });

  test("may come with every dressing at once where a rut may be deeper than the tip could reach", () => {
    const hidden = steady(4.9).map((visit, i) =>
      i === 1 ? visitOn(visit.date, { depthMm: 0.1, u: sure, atLeast: true, edgeMm: 4.9 }) : visit,
    );
    // Nobody knows the fastest wear then: from the latest visit on.
    expect(range(outlookOf(hidden).end).from).toBe("2025-01-01");
  });

  test("can't be told while nobody knows when a dressing is due, but how many there is room for can", () => {
    const once = [visitOn("2025-01-01", { depthMm: 0.1, edgeMm: 4.9 })];
    expect(why(outlookOf(once).end)).toMatch(
      /^Room for 2 to 4 dressings above 4\.00 mm; when they are due can't be told yet\./,
    );
  });
});
