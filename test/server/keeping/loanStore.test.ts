/**
 * The invented loan store through the whole tool: files, examinations, records, history; beside what its makers know to be true.
 *
 * The truth comes from the makers' own files (data/examples/histories/NUMBER.truth.json), which share no code with the program. Lengths in mm.
 */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, test, vi } from "vitest";
import type { HistoryTruth } from "../../../data/make/history.ts";
import { findingsOf } from "../../../server/core/history/findings.ts";
import type { When } from "../../../server/core/history/history.ts";
import { pairOf } from "../../../server/core/history/pairOf.ts";
import { loadHistories } from "../../../server/exampleHistories.ts";
import { betweenVisits } from "../../../server/keeping/between.ts";
import { seedLoanStore } from "../../../server/keeping/loanStore.ts";
import { type Story, storyOf } from "../../../server/keeping/story.ts";
import { openStore } from "../../../server/records/openStore.ts";
import type { Store } from "../../../server/records/store.ts";
import { keepingOn } from "../../support/keepingForTests.ts";
import { near } from "../../support/near.ts";
import { storesForTests } from "../../support/storesForTests.ts";

// Some sixty examinations, on a machine that may do much else.
vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });

const folder = fileURLToPath(new URL("../../../data/examples/histories", import.meta.url));
const histories = loadHistories(folder);
const truths = new Map(
  histories.map(({ number }): [string, HistoryTruth] => [
    number,
    JSON.parse(readFileSync(`${folder}/${number}.truth.json`, "utf8")),
  ]),
);

let store: Store;
const stories = new Map<string, Story>();
beforeAll(async () => {
  store = await openStore({ memory: true }, { version: "test" });
  // A clock that stands before every visit: the store is invented, and seeded all the same.
  await seedLoanStore(keepingOn(store, { now: () => new Date("2001-01-01") }), histories);
  for (const { number } of histories) stories.set(number, (await storyOf(store, number))!);
  return () => store.close();
});

const story = (number: string) => stories.get(number)!;
const truth = (number: string) => truths.get(number)!;
const everyNumber = histories.map(({ number, title }) => [number, title] as const);

describe("the invented loan store", () => {
  test("has all its instruments and visits, and says of each that it is invented", () => {
    expect(histories.length).toBeGreaterThanOrEqual(12);
    for (const { number, visits } of histories) {
      expect(story(number).instrument.label).toMatch(/^Invented: /);
      expect(story(number).visits.map(({ date }) => date)).toEqual(visits.map(({ date }) => date).reverse());
    }
  });

  test("has the verdict of each example board as its latest", () => {
    const list: readonly { number: string; decision: string }[] = JSON.parse(
      readFileSync(`${folder}/../examples.json`, "utf8"),
    );
    const said = list.map(({ number }) => [number, story(number).instrument.lastDecision]);
    expect(said).toEqual(list.map(({ number, decision }) => [number, decision]));
  });

  test("can be looked at before it is complete, and stops where it is told to", async () => {
    const half = await openStore({ memory: true }, { version: "test" });
    const stop = new AbortController();
    let looked = 0;
    const looking = setInterval(async () => {
      looked = (await storyOf(half, "C-07"))?.visits.length ?? 0;
      if (looked > 0) stop.abort();
    }, 1);
    await seedLoanStore(keepingOn(half), histories, stop.signal);
    clearInterval(looking);
    expect(looked).toBeGreaterThan(0);
    expect((await storyOf(half, "C-07"))?.visits.length).toBeLessThan(histories[0].visits.length);
    expect(await storyOf(half, "B-03")).toMatchObject({ visits: [] });
    await half.close();
  });
});

describe("wear at each visit", () => {
  // U has k = 2; two hundred figures in all tests of the examples together: four standard uncertainties, as there. A tip that can't
  // reach the bottom reads less, and the history says so.
  test.each(everyNumber)("of %s, %s, is what the board had", (number) => {
    const read = new Map(story(number).history.wear.map((point) => [point.date, point]));
    for (const { date, deepestReadingMm } of truth(number).visits) {
      const point = read.get(date);
      if (point === undefined) continue;
      // Where no worn place was found, its u is the depth that would just not have shown.
      near(point.depthMm.value, deepestReadingMm, 2 * point.depthMm.u, `${date}: deepest wear, mm`);
    }
  });

  test("is not told of a quick look", () => {
    expect(story("V-30").history.wear).toEqual([]);
  });
});

type Rated = { readonly number: string; readonly trueMm: number; readonly interval: readonly [number, number] };

function rates(): readonly Rated[] {
  return histories.flatMap(({ number }): Rated[] => {
    const { runs, wearsBy } = truth(number);
    const { perYear, perHundredHours } = story(number).history;
    const told = wearsBy === "hours" ? perHundredHours : perYear;
    // A rate of the readings at least: the ruts' own may be greater.
    if (told.told === "not yet" || told.atLeast) return [];
    const trueMm = wearsBy === "hours" ? runs[0].perHundredHoursMm : runs[0].perYearMm;
    return [{ number, trueMm: trueMm!, interval: told.interval }];
  });
}

describe("how fast it wears", () => {
  // An interval holds the true rate 95 of 100 times. Of thirteen three or more would miss once in forty sets of boards.
  test("lies within the interval told, for all but two of the instruments at most", () => {
    const told = rates();
    expect(told.length).toBeGreaterThanOrEqual(13);
    const missed = told.filter(({ trueMm, interval: [from, to] }) => trueMm < from || trueMm > to);
    expect(missed.length).toBeLessThanOrEqual(2);
  });

  test("is told narrowly enough to be of use: within four tenths of itself for half of the instruments", () => {
    const widths = rates().map(({ trueMm, interval: [from, to] }) => (to - from) / 2 / trueMm);
    expect(widths.filter((width) => width < 0.4).length).toBeGreaterThanOrEqual(rates().length / 2);
  });

  test.each([
    ["V-30", "after quick looks alone", "quick look"],
    ["V-15", "where the ruts may be deeper than the tip could reach", "deeper than the tip could reach"],
  ])("can't be told yet of %s, %s, and it is said why", (number, _, why) => {
    const { perYear, outlook } = story(number).history;
    expect(perYear).toMatchObject({ told: "not yet", why: expect.stringContaining(why) });
    expect(outlook.dressing).toMatchObject({ told: "not yet", why: expect.stringContaining(why) });
  });
});

describe("when a dressing is due", () => {
  const day = (date: string, years: number): string =>
    new Date(Date.parse(date) + years * 365.25 * 86_400_000).toISOString().slice(0, 10);

  test("is a range that holds the true day, where it is still to come", () => {
    const ranges = histories.flatMap(({ number }) => {
      const { outlook } = story(number).history;
      const { runs, visits } = truth(number);
      const perYearMm = runs.at(-1)!.perYearMm || runs[0].perYearMm;
      const dressAtMm = story(number).visits[0].findings.dressAtMm;
      const yearsToGo = (dressAtMm - visits.at(-1)!.deepestReadingMm) / perYearMm;
      return outlook.dressing.told === "range"
        ? [{ number, dressing: outlook.dressing, trueDay: day(visits.at(-1)!.date, yearsToGo) }]
        : [];
    });
    expect(ranges.length).toBeGreaterThanOrEqual(4);
    const missed = ranges.filter(
      ({ dressing: { from, to }, trueDay }) => trueDay < from || (to !== null && trueDay > to),
    );
    expect(missed).toEqual([]);
  });

  test("is said to be reached only where the board was as worn as that, within U of the reading", () => {
    const reached = histories.filter(({ number }) => story(number).history.outlook.dressing.told === "reached");
    expect(reached.length).toBeGreaterThanOrEqual(8);
    for (const { number } of reached) {
      const dressing = story(number).history.outlook.dressing as Extract<When, { told: "reached" }>;
      const then = truth(number).visits.find(({ date }) => date === dressing.since)!;
      const point = story(number).history.wear.find(({ date }) => date === dressing.since)!;
      const dressAtMm = story(number).visits[0].findings.dressAtMm;
      expect(then.deepestReadingMm).toBeGreaterThan(dressAtMm - point.depthMm.u);
    }
  });

  test("leads the due list, and what can't be told yet ends it", async () => {
    const { entries } = await store.due({ after: null, limit: 50 });
    const told = entries.map(({ outlook }) => outlook.dressing.told);
    expect(told).toHaveLength(histories.length);
    expect(told).toEqual([...told].sort((a, b) => order.indexOf(a) - order.indexOf(b)));
  });
  const order = ["reached", "range", "not yet"];

  test("the viola planed once too often is at its end", () => {
    expect(story("A-12").history.outlook.end).toMatchObject({ told: "reached", since: "2025-05-19" });
  });
});

describe("what a dressing came to", () => {
  test.each([
    ["C-07", 1],
    ["A-12", 2],
    ["V-21", 1],
    ["A-05", 1],
  ])("is told of %s: as much taken as there is less, and no wear left", (number, pairs) => {
    const told = story(number).pairs;
    expect(told).toHaveLength(pairs);
    for (const { before, after } of told) {
      const at = (date: string) => truth(number).visits.find((visit) => visit.date === date)!;
      const pair = pairOf(before.findings, after.findings);
      const trueMm = at(before.date).thinnestEdgeMm! - at(after.date).thinnestEdgeMm!;
      near(pair.takenMm!.value, trueMm, pair.takenMm!.u, `${after.date}: taken at the thinnest edge, mm`);
      near(pair.wearAfterMm!.value, 0, pair.wearAfterMm!.u, `${after.date}: wear left, mm`);
    }
  });
});

describe("wear between two visits", () => {
  const between = async (number: string, date: string, earlier: string | null = null) => {
    const { visits } = story(number);
    const idOf = (wanted: string) => visits.find((visit) => visit.date === wanted)!.id;
    const later = visits.find((visit) => visit.date === date)!;
    return betweenVisits(store, later, earlier === null ? null : idOf(earlier));
  };

  test("is since the visit before, where none is named, and as much as the board wore", async () => {
    const told = await between("C-07", "2025-10-06");
    expect(told?.earlier?.date).toBe("2024-04-08");
    const { between: grown } = told!;
    if (grown.told !== "wear between") throw new Error(grown.why);
    const [before, after] = truth("C-07").visits.slice(-2);
    // The largest of so many differences is picked for being large: once its U more.
    near(
      grown.most.growthMm.value,
      after.deepestReadingMm - before.deepestReadingMm,
      2 * grown.most.growthMm.u,
      "growth, mm",
    );
  });

  test("may be since any earlier visit: five years in first position wear a cello there", async () => {
    const told = await between("C-07", "2025-10-06", "2020-09-14");
    expect(told?.between).toMatchObject({ told: "wear between", most: { position: "first", isBeyondNoise: true } });
  });

  test.each([
    ["across a dressing", "C-07", "2020-09-14", "2017-06-19", "worked on"],
    ["from a later visit", "C-07", "2020-09-14", "2022-09-12", "not the earlier one"],
    ["before the first visit", "C-07", "2017-06-19", null, "no earlier visit"],
    ["with a quick look", "V-30", "2024-06-10", null, "quick look"],
  ])("is not told %s", async (_, number, date, earlier, why) => {
    const told = await between(number, date, earlier);
    expect(told?.between).toMatchObject({ told: "not comparable", why: expect.stringContaining(why) });
  });

  test("is not told of a visit that another instrument has", async () => {
    const later = story("C-07").visits[0];
    expect(await betweenVisits(store, later, story("C-23").visits[0].id)).toBeNull();
  });
});

describe("a story", () => {
  test("is told of no instrument that nobody recorded", async () => {
    expect(await storyOf(store, "X-99")).toBeNull();
  });

  test("says of each visit what its examination found", async () => {
    const [latest] = story("C-07").visits;
    const kept = await store.examination(latest.id);
    // Kept examinations are rounded to 0.0001.
    near(
      findingsOf(kept!.examination).deepest!.depthMm.value,
      latest.findings.deepest!.depthMm.value,
      0.0001,
      "depth, mm",
    );
  });

  describe("on PostgreSQL", () => {
    const stores = storesForTests("PostgreSQL");

    test("is the same as on SQLite", async () => {
      const other = await stores.open();
      const two = histories.filter(({ number }) => ["C-07", "A-05"].includes(number));
      await seedLoanStore(keepingOn(other), two);
      for (const { number } of two) {
        const { history, visits, pairs } = (await storyOf(other, number))!;
        const dates = new Map([...visits, ...story(number).visits].map(({ id, date }) => [id, date]));
        // Ids are random: in their place the day of the visit.
        const byDate = (thing: unknown) => JSON.stringify(thing, (_, part) => dates.get(part) ?? part);
        expect(byDate(history)).toBe(byDate(story(number).history));
        expect(pairs.map(({ after }) => after.date)).toEqual(story(number).pairs.map(({ after }) => after.date));
      }
    });
  });
});
