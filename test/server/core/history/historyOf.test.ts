/**
 * An instrument's history from made-up visits, by hand: timelines, runs, growth, what can't be told and why. Lengths in mm. The
 * outlook has a page of its own (outlook.test.ts), the intervals a simulation (test/properties/histories.test.ts).
 */
import { describe, expect, test } from "vitest";
import type { WearRate } from "../../../../server/core/history/history.ts";
import { historyOf } from "../../../../server/core/history/historyOf.ts";
import { visitOn } from "../../../support/historyVisits.ts";
import { near } from "../../../support/near.ts";

function told(rate: WearRate): Extract<WearRate, { told: "rate" }> {
  if (rate.told !== "rate") throw new Error(rate.why);
  return rate;
}

const why = (rate: WearRate): string => (rate.told === "not yet" ? rate.why : `told: ${rate.mm}`);

/** Four years of 0.04 mm: 2021 to 2025, 1461 days. */
const fourYears = [
  visitOn("2021-03-01", { depthMm: 0.02, u: 0.02 }),
  visitOn("2025-03-01", { depthMm: 0.18, u: 0.02 }),
];

describe("no visit, or one", () => {
  test("tells nothing and says why", () => {
    const none = historyOf([]);
    expect(none).toMatchObject({ wear: [], thickness: [], works: [], outlook: { dressing: { told: "not yet" } } });
    expect(why(none.perYear)).toContain("No full survey yet");
    const one = historyOf([visitOn("2024-05-03", { depthMm: 0.1 })]);
    expect(one.wear).toEqual([
      { visitId: "2024-05-03", date: "2024-05-03", years: 0, depthMm: { value: 0.1, u: 0.02 }, atLeast: false, run: 0 },
    ]);
    expect(why(one.perYear)).toContain("One survey only");
    expect(one.outlook.dressing).toMatchObject({ told: "not yet" });
  });

  test("a quick look has no place on the wear line, but its thickness has one", () => {
    const looked = historyOf([visitOn("2024-05-03", { depthMm: "not looked", edgeMm: 5 })]);
    expect(looked.wear).toEqual([]);
    expect(looked.thickness).toMatchObject([{ edgeMm: { value: 5, u: 0.05 }, limitMm: 4 }]);
    expect(why(looked.perYear)).toContain("quick look");
  });
});

describe("two surveys", () => {
  test("tell the wear of a year with the uncertainty of both", () => {
    const rate = told(historyOf(fourYears).perYear);
    // By hand: 0.16 mm in 1461 / 365.25 = 4 years; ± 1.96 · √2 · 0.01 / 4 = 0.00693.
    near(rate.mm, 0.04, 1e-12);
    near(rate.interval[0], 0.04 - 0.00693, 1e-5);
    near(rate.interval[1], 0.04 + 0.00693, 1e-5);
    expect(rate).toMatchObject({ visits: 2, atLeast: false, assumed: [] });
  });

  test("on the same or nearly the same day are no growth", () => {
    for (const day of ["2024-05-03", "2024-05-20"]) {
      const visits = [visitOn("2024-05-03", { id: "a", depthMm: 0.05 }), visitOn(day, { id: "b", depthMm: 0.15 })];
      expect(why(historyOf(visits).perYear)).toContain("apart: at least 4 weeks");
    }
  });

  test("whose difference is within their uncertainty tell no rate but its upper bound", () => {
    const visits = [
      visitOn("2021-03-01", { depthMm: 0.1, u: 0.04 }),
      visitOn("2025-03-01", { depthMm: 0.12, u: 0.04 }),
    ];
    // By hand: 0.005 + 1.96 · √2 · 0.02 / 4 = 0.0189.
    expect(why(historyOf(visits).perYear)).toContain("within the readings' uncertainty: at most 0.019 mm a year");
  });

  test("of which the first found no wear begin at nothing, give or take what would not have shown, and say so", () => {
    const visits = [
      visitOn("2021-03-01", { depthMm: null, unseenMm: 0.04 }),
      visitOn("2025-03-01", { depthMm: 0.2, u: 0.02 }),
    ];
    const { wear, perYear } = historyOf(visits);
    expect(wear[0]?.depthMm).toEqual({ value: 0, u: 0.04 });
    near(told(perYear).mm, 0.05, 1e-12);
    expect(told(perYear).assumed.join()).toContain("where no wear showed");
  });

  test("with less wear at the second, and no dressing written down, are asked about", () => {
    const visits = [visitOn("2021-03-01", { depthMm: 0.3 }), visitOn("2025-03-01", { depthMm: 0.05 })];
    const { perYear, outlook } = historyOf(visits);
    expect(why(perYear)).toBe(
      "The deepest wear was 0.30 mm on 1 March 2021 and 0.05 mm on 1 March 2025, and no dressing is written down between: wear doesn't heal. If the board was dressed, write it down.",
    );
    expect(outlook.dressing.told).toBe("not yet");
  });
});

describe("a dressing", () => {
  const dressed = [
    visitOn("2019-03-01", { depthMm: 0.1, edgeMm: 5.2 }),
    visitOn("2021-03-01", { id: "before", depthMm: 0.25, edgeMm: 5.2, planMm: 0.35, work: "dressed" }),
  ];
  const measured = [
    ...dressed,
    visitOn("2021-03-02", { id: "after", depthMm: 0.02, edgeMm: 4.9, after: "before" }),
    visitOn("2025-03-02", { id: "later", depthMm: 0.22, edgeMm: 4.88 }),
  ];

  test("parts the wear into runs, and the board measured again after it belongs to the new one", () => {
    expect(historyOf(measured).wear.map(({ run }) => run)).toEqual([0, 0, 1, 1]);
  });

  test("is told with its plan, the wood it took and the wear it left", () => {
    const { works } = historyOf(measured);
    expect(works).toHaveLength(1);
    expect(works[0]).toMatchObject({
      visitId: "before",
      date: "2021-03-01",
      work: "dressed",
      plannedMm: { value: 0.35 },
    });
    near(works[0]!.takenMm!.value, 0.3, 1e-12);
    // Two callipers of ± 0.05, one beside the other.
    near(works[0]!.takenMm!.u, 0.05 * Math.SQRT2, 1e-12);
    expect(works[0]!.leftMm).toEqual({ value: 0.02, u: 0.02 });
  });

  test("is the same work whether it is written down before, at the measuring after it, or at both", () => {
    const writtenAt = (before: "none" | "dressed", after: "none" | "dressed") =>
      historyOf(
        measured.map((visit) =>
          visit.id === "before"
            ? { ...visit, workDone: before }
            : visit.id === "after"
              ? { ...visit, workDone: after }
              : visit,
        ),
      );
    for (const history of [writtenAt("none", "dressed"), writtenAt("dressed", "dressed")]) {
      expect(history.wear.map(({ run }) => run)).toEqual([0, 0, 1, 1]);
      expect(history.works).toHaveLength(1);
      expect(history.works[0]).toMatchObject({ plannedMm: { value: 0.35 }, leftMm: { value: 0.02 } });
      expect(history.perYear).toEqual(historyOf(measured).perYear);
    }
  });

  test("leaves one growth to both runs, each from its own start", () => {
    const rate = told(historyOf(measured).perYear);
    // By hand, all u alike: (2·0.15 + … )/…: run one 0.075 a year over 2 years, run two 0.05 over 4; weights 2²/2 and 4²/2 -> 0.055.
    near(rate.mm, (2 * 0.075 + 8 * 0.05) / 10, 2e-5);
    expect(rate.visits).toBe(4);
    expect(rate.assumed).toContain("the same growth before and after each dressing");
  });

  test("that nobody measured after leaves the board as good as unworn, within 0.05 mm, and says so", () => {
    const { perYear, wear } = historyOf([...dressed, visitOn("2025-03-01", { depthMm: 0.2 })]);
    expect(wear.map(({ run }) => run)).toEqual([0, 0, 1]);
    expect(told(perYear).assumed).toContain("taken as unworn (within 0.05 mm) after the dressing of 1 March 2021");
    // By hand: weights (2²/2)/0.01² and, with 0.025 and 0.01 at the ends, 4²/(0.025² + 0.01²).
    const [first, second] = [2 / 1e-4, 16 / (0.025 ** 2 + 0.01 ** 2)];
    near(told(perYear).mm, (first * 0.075 + second * 0.05) / (first + second), 2e-5);
  });

  test("with a quick look afterwards is not measured: the board still counts as unworn", () => {
    const looked = [...dressed, visitOn("2021-03-02", { depthMm: "not looked", after: "before", edgeMm: 4.9 })];
    const { perYear, works } = historyOf([...looked, visitOn("2025-03-01", { depthMm: 0.2 })]);
    expect(told(perYear).assumed.join()).toContain("taken as unworn");
    expect(works[0]).toMatchObject({ leftMm: null });
    near(works[0]!.takenMm!.value, 0.3, 1e-12);
  });

  test("between each two surveys leaves no growth to tell until there are two after one", () => {
    const each = [
      visitOn("2019-03-01", { id: "a", depthMm: 0.25, work: "dressed" }),
      visitOn("2019-03-02", { id: "b", depthMm: 0.01, after: "a" }),
    ];
    expect(why(historyOf(each).perYear)).toContain("Only one survey since each dressing");
  });

  test("of a new board has no wood taken, whatever was measured", () => {
    const renewed = measured.map((visit) =>
      visit.id === "before" ? { ...visit, workDone: "new board" as const } : visit,
    );
    expect(historyOf(renewed).works[0]).toMatchObject({ work: "new board", takenMm: null });
  });

  test("followed by a new board at the measuring after it is two works", () => {
    const two = measured.map((visit) => (visit.id === "after" ? { ...visit, workDone: "new board" as const } : visit));
    const { works, wear } = historyOf(two);
    expect(works.map(({ work }) => work)).toEqual(["dressed", "new board"]);
    expect(wear.map(({ run }) => run)).toEqual([0, 0, 1, 2]);
  });

  test("or other work that doesn't touch the board's face parts nothing", () => {
    const other = measured.slice(0, 2).map((visit) => ({ ...visit, workDone: "other" as const }));
    expect(historyOf(other)).toMatchObject({ works: [], wear: [{ run: 0 }, { run: 0 }] });
  });
});

describe("hours played", () => {
  const played = [
    visitOn("2021-03-01", { depthMm: 0.02 }),
    visitOn("2023-03-01", { depthMm: 0.1, hours: 400 }),
    visitOn("2025-03-01", { depthMm: 0.18, hours: 400 }),
  ];

  test("tell the wear of a hundred of them, counted up visit by visit", () => {
    // By hand: 0.16 mm in 800 hours.
    near(told(historyOf(played).perHundredHours).mm, 0.02, 1e-12);
  });

  test("that nobody wrote down between two visits leave no rate by the hour, and the one by the year", () => {
    const unknown = played.map((visit, i) => (i === 1 ? { ...visit, hoursPlayed: null } : visit));
    expect(why(historyOf(unknown).perHundredHours)).toContain("isn't written down for every visit");
    near(told(historyOf(unknown).perYear).mm, 0.04, 1e-4);
  });

  test("are asked of no one for the day of the work, and count from it in a new run", () => {
    const visits = [
      ...played.map((visit, i) => (i === 2 ? { ...visit, id: "before", workDone: "dressed" as const } : visit)),
      visitOn("2025-03-02", { depthMm: null, after: "before" }),
      visitOn("2027-03-02", { depthMm: 0.12, hours: 400 }),
    ];
    // By hand: 0.02 over two steps of 4 (weight 8² / 2), 0.03 over one (u of the fresh board 0.03, of the last 0.02): both runs count.
    const [first, second] = [(2 * 4 ** 2) / 0.01 ** 2, 4 ** 2 / (0.015 ** 2 + 0.01 ** 2)];
    near(told(historyOf(visits).perHundredHours).mm, (first * 0.02 + second * 0.03) / (first + second), 1e-9);
  });

  test("of hardly any playing tell no growth", () => {
    const few = played.map((visit) => ({ ...visit, hoursPlayed: 5 }));
    expect(why(historyOf(few).perHundredHours)).toContain("10 hours of playing apart: at least 20");
  });

  test("of a quick look between two surveys count too", () => {
    const looked = played.map((visit, i) =>
      i === 1 ? visitOn("2023-03-01", { depthMm: "not looked", hours: 400 }) : visit,
    );
    near(told(historyOf(looked).perHundredHours).mm, 0.02, 1e-12);
  });
});

describe("a rut that the tip could not bottom", () => {
  test("at the last survey makes the growth at least what it is", () => {
    const visits = [fourYears[0]!, visitOn("2025-03-01", { depthMm: 0.18, atLeast: true })];
    expect(told(historyOf(visits).perYear).atLeast).toBe(true);
  });

  test("at the first leaves it open, and says what to do", () => {
    const visits = [visitOn("2021-03-01", { depthMm: 0.02, atLeast: true }), fourYears[1]!];
    expect(why(historyOf(visits).perYear)).toContain("Read the strings' paths with a finer tip");
  });
});

test("a measuring again that is dated before its first measuring, or a ring of them, breaks nothing", () => {
  const odd = [
    visitOn("2024-01-01", { id: "a", depthMm: 0.2, after: "b", work: "dressed" }),
    visitOn("2023-01-01", { id: "b", depthMm: 0.1, after: "a" }),
    visitOn("2022-01-01", { id: "c", depthMm: 0.1, after: "c" }),
    visitOn("2021-01-01", { id: "d", depthMm: 0.1, after: "gone" }),
  ];
  const history = historyOf(odd);
  expect(history.wear.map(({ visitId }) => visitId).toSorted()).toEqual(["a", "b", "c", "d"]);
  const early = historyOf([
    visitOn("2024-01-10", { id: "a", depthMm: 0.25, work: "dressed" }),
    visitOn("2024-01-09", { id: "b", depthMm: 0.01, after: "a" }),
  ]);
  expect(early.wear.map(({ visitId, run }) => [visitId, run])).toEqual([
    ["a", 0],
    ["b", 1],
  ]);
});
