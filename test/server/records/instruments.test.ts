/** Instruments: a number is one however it is written, found as one types, changed in turn. */
import { describe, expect, test } from "vitest";
import { BadCursor, type Store } from "../../../server/records/store.ts";
import { instrumentGiven } from "../../support/recordsForTests.ts";
import { describeOnBothStores } from "../../support/storesForTests.ts";

async function numbersFound(store: Store, typed: string, limit = 50): Promise<string[]> {
  const numbers: string[] = [];
  for (let after: string | null = null; ; ) {
    const page = await store.findInstruments(typed, { after, limit });
    expect(page.entries.length).toBeLessThanOrEqual(limit);
    numbers.push(...page.entries.map(({ number }) => number));
    if (page.next === null) return numbers;
    after = page.next;
  }
}

async function storeWith(store: Store, ...numbers: readonly string[]): Promise<Store> {
  for (const number of numbers) await store.addInstrument(instrumentGiven(number));
  return store;
}

describeOnBothStores("an instrument", (stores) => {
  test("comes back as it was given", async () => {
    const store = await stores.open({ now: () => new Date("2026-11-25T09:30:00Z") });
    const given = instrumentGiven("C-07", {
      instrument: "cello 1/2",
      label: "Jägerzimmer – 大提琴 🎻",
      strings: "C G D A",
      build: "veneered",
      valuable: true,
      dimensions: { board_length: "590", "it's": '"quoted"; drop table instruments' },
    });
    const { outcome, instrument } = await store.addInstrument(given);
    expect(outcome).toBe("added");
    expect(instrument).toEqual({
      ...given,
      id: expect.stringMatching(/^[0-9a-f-]{36}$/),
      revision: 1,
      recordedAt: "2026-11-25T09:30:00.000Z",
      visits: 0,
      lastVisit: null,
      lastDecision: null,
    });
    expect(await store.instrument("C-07")).toEqual(instrument);
  });

  test("is one instrument whatever the case, spaces and width of its number", async () => {
    const store = await storeWith(await stores.open(), "C-07");
    for (const number of ["c-07", " C - 07 ", "Ｃ-０７"]) {
      const { outcome, instrument } = await store.addInstrument(instrumentGiven(number));
      expect([outcome, instrument.number]).toEqual(["number taken", "C-07"]);
      expect((await store.instrument(number))?.number).toBe("C-07");
    }
    expect(await store.instrument("C-08")).toBeNull();
  });

  test("is another one where the dash stands elsewhere", async () => {
    const store = await storeWith(await stores.open(), "1-12", "11-2");
    expect(await numbersFound(store, "112")).toEqual(["1-12", "11-2"]);
  });

  test("is found as one types, those that begin so first, dashes or not", async () => {
    const store = await storeWith(await stores.open(), "VC-07", "C-07", "C-70", "C-071", "V-1");
    expect(await numbersFound(store, "c07")).toEqual(["C-07", "C-071", "VC-07"]);
    expect(await numbersFound(store, "c-0")).toEqual(["C-07", "C-071", "VC-07"]);
    expect(await numbersFound(store, "x")).toEqual([]);
    expect(await numbersFound(store, "")).toEqual(["C-07", "C-071", "C-70", "V-1", "VC-07"]);
  });

  test("is found by signs that mean something else to a database", async () => {
    const store = await storeWith(await stores.open(), "A%1", "A1", "A\\2", "A'3");
    expect(await numbersFound(store, "%")).toEqual(["A%1"]);
    expect(await numbersFound(store, "a%")).toEqual(["A%1"]);
    expect(await numbersFound(store, "\\")).toEqual(["A\\2"]);
    expect(await numbersFound(store, "'")).toEqual(["A'3"]);
  });

  test("is listed once, page by page, however long a page is", async () => {
    const numbers = Array.from({ length: 23 }, (_, i) => `${i % 2 ? "C" : "VC"}-${10 + i}`);
    const store = await storeWith(await stores.open(), ...numbers);
    const whole = await numbersFound(store, "c1", 200);
    expect(whole).toEqual(["C-11", "C-13", "C-15", "C-17", "C-19", "VC-10", "VC-12", "VC-14", "VC-16", "VC-18"]);
    for (const limit of [1, 2, 3, 5, 7, 10]) expect(await numbersFound(store, "c1", limit)).toEqual(whole);
  });

  test("stands in the order of its bytes, the same on every machine", async () => {
    const store = await storeWith(await stores.open(), "ä1", "z1", "a1", "é1", "🎻", "～");
    expect(await numbersFound(store, "")).toEqual(["a1", "z1", "～", "ä1", "é1", "🎻"]);
  });

  test("is listed from no place that the list did not hand out", async () => {
    const store = await storeWith(await stores.open(), "C-1", "C-2");
    const { next } = await store.findInstruments("c", { after: null, limit: 1 });
    for (const after of ["", "x", `${next}x`, `x${next}`, next!.replace(/.$/, (end) => (end === "A" ? "B" : "A"))]) {
      await expect(store.findInstruments("c", { after, limit: 1 })).rejects.toThrow(BadCursor);
    }
    await expect(store.findInstruments("other", { after: next, limit: 1 })).rejects.toThrow(BadCursor);
    await expect(store.due({ after: next, limit: 1 })).rejects.toThrow(BadCursor);
  });
});

describeOnBothStores("an instrument that is changed", (stores) => {
  test("takes over what was said and keeps the rest", async () => {
    const store = await storeWith(await stores.open(), "C-07");
    const before = (await store.instrument("C-07"))!;
    const outcome = await store.changeInstrument("C-07", 1, { number: "C-77", label: "back row", valuable: true });
    const after = { ...before, number: "C-77", label: "back row", valuable: true, revision: 2 };
    expect(outcome).toEqual({ outcome: "changed", entry: after });
    expect(await store.instrument("C-77")).toEqual(after);
    expect(await store.instrument("C-07")).toBeNull();
    expect(await numbersFound(store, "c7")).toEqual(["C-77"]);
  });

  test("tells the later of two how it stands, and takes nothing from them", async () => {
    const store = await storeWith(await stores.open(), "C-07");
    await store.changeInstrument("C-07", 1, { label: "first" });
    const second = await store.changeInstrument("C-07", 1, { label: "second" });
    expect(second).toEqual({ outcome: "changed meanwhile", now: await store.instrument("C-07") });
    expect((await store.instrument("C-07"))?.label).toBe("first");
  });

  test("does not take another's number, but its own in other letters", async () => {
    const store = await storeWith(await stores.open(), "C-07", "C-08");
    expect(await store.changeInstrument("C-07", 1, { number: "c-08" })).toEqual({ outcome: "number taken" });
    expect(await store.changeInstrument("C-07", 1, { number: "c-07" })).toMatchObject({ outcome: "changed" });
    expect((await store.instrument("C-07"))?.number).toBe("c-07");
  });

  test("is unknown where there is none", async () => {
    const store = await stores.open();
    expect(await store.changeInstrument("C-07", 1, {})).toEqual({ outcome: "unknown" });
  });
});

describeOnBothStores("an instrument of another store", (stores) => {
  const brought = {
    ...instrumentGiven("C-07"),
    id: "11111111-1111-4111-8111-111111111111",
    revision: 5,
    recordedAt: "2020-01-01T00:00:00.000Z",
  };

  test("keeps its id, revision and time", async () => {
    const store = await stores.open();
    expect(await store.importInstrument(brought)).toMatchObject({ outcome: "added", instrument: brought });
  });

  test("is there already by its id, whatever it says now", async () => {
    const store = await stores.open();
    await store.importInstrument(brought);
    await store.changeInstrument("C-07", 5, { number: "C-70" });
    expect(await store.importInstrument(brought)).toMatchObject({
      outcome: "there already",
      instrument: { number: "C-70" },
    });
  });

  test("finds its number taken by another", async () => {
    const store = await storeWith(await stores.open(), "c-07");
    expect(await store.importInstrument(brought)).toMatchObject({
      outcome: "number taken",
      instrument: { revision: 1 },
    });
  });
});

describe("ten thousand instruments", () => {
  describeOnBothStores("found as one types", (stores) => {
    // Sought: 10 ms in the store; seen: 0.7 ms and 3.6 ms at most. Held to five times what is sought, for machines that do
    // other things meanwhile.
    test("takes a few milliseconds a key", { timeout: 60_000 }, async () => {
      const store = await stores.open();
      const recordedAt = "2026-01-01T00:00:00.000Z";
      for (let i = 0; i < 10_000; i += 100) {
        await Promise.all(
          Array.from({ length: 100 }, (_, j) => {
            const number = `${"VLCB"[j % 4]}-${String(i + j).padStart(5, "0")}`;
            const id = `00000000-0000-4000-8000-${String(i + j).padStart(12, "0")}`;
            return store.importInstrument({ ...instrumentGiven(number), id, revision: 1, recordedAt });
          }),
        );
      }
      const tookMs: number[] = [];
      for (const typed of ["", "c", "c-", "c-0", "c-00", "c-001", "42", "999", "none of these", "l-0099"]) {
        const startMs = performance.now();
        await store.findInstruments(typed, { after: null, limit: 50 });
        tookMs.push(performance.now() - startMs);
      }
      const middle = tookMs.toSorted((one, other) => one - other)[5];
      expect(middle).toBeLessThan(50);
    });
  });
});
