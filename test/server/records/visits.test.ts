/** Visits: kept whole or not at all, recognised where they are the same, listed newest first, their notes changed in turn. */
import { expect, test } from "vitest";
import type { Store } from "../../../server/records/store.ts";
import { BadCursor } from "../../../server/records/store.ts";
import {
  celloExamined,
  findings,
  givenFile,
  instrumentGiven,
  newVisit,
  outlookOf,
  visitNotes,
} from "../../support/recordsForTests.ts";
import { askDatabase, describeOnBothStores } from "../../support/storesForTests.ts";

const nobody = "00000000-0000-4000-8000-000000000000";

async function withCello(opened: Promise<Store>): Promise<Store> {
  const store = await opened;
  await store.addInstrument(instrumentGiven("C-07"));
  return store;
}

async function kept(store: Store, date: string, others: Parameters<typeof newVisit>[2] = {}, number = "C-07") {
  const answer = await store.keepVisit(number, newVisit(date, `${number} ${date}`, others), outlookOf);
  if (answer.outcome !== "kept") throw new Error(answer.outcome);
  return answer.visit;
}

describeOnBothStores("a visit", (stores) => {
  test("comes back as it was given, its files byte for byte", async () => {
    const store = await withCello(stores.open({ now: () => new Date("2026-11-25T09:30:00Z") }));
    const readings = givenFile("readings", "x,y,z\r\n\u{FEFF}1,2,3\0\r");
    const thickness = givenFile("thickness", "x,side,mm\n10,bass,5.1\n");
    const given = newVisit("2026-11-24", "", {
      settings: { unit: "mm", note: 'it\'s "quoted", 琴' },
      files: [readings, thickness],
      player: { hand: "left, small", notes: "presses hard" },
      notes: visitNotes({
        reason: "buzzes on the D string",
        gauge: "dial gauge 2",
        rail: "steel",
        humidityPercent: 45.5,
        hoursPlayed: 120,
        decisionTaken: "wait",
        workDone: "other",
        workNotes: "new strings",
      }),
    });
    const visit = await kept(store, "2026-11-24", given, "c-07");
    expect(visit).toEqual({
      id: expect.stringMatching(/^[0-9a-f-]{36}$/),
      instrumentNumber: "C-07",
      date: "2026-11-24",
      recordedAt: "2026-11-25T09:30:00.000Z",
      revision: 1,
      ...given.notes,
      settings: given.settings,
      files: [readings, thickness].map(({ part, sha256, bytes }) => ({ part, sha256, byteCount: bytes.length })),
      version: "test",
      findings: given.findings,
    });
    expect(await store.visit("c-07", visit.id)).toEqual(visit);
    for (const { sha256, bytes } of [readings, thickness])
      expect(await store.fileBytes(sha256)).toEqual(Buffer.from(bytes));
    expect(await store.playerNotes(visit.id)).toEqual({ ...given.player, revision: 1 });
    expect(await store.check()).toEqual([]);
  });

  test("is on disk once it is acknowledged: whoever opens the store next finds it", async () => {
    const where = await stores.newPlace();
    const first = await withCello(stores.open({ where }));
    const visit = await kept(first, "2026-11-24");
    const second = await stores.open({ where });
    expect(await second.visit("C-07", visit.id)).toEqual(visit);
    await first.close();
    const third = await stores.open({ where });
    expect(await third.visit("C-07", visit.id)).toEqual(visit);
  });

  test("is looked for under its own instrument only", async () => {
    const store = await withCello(stores.open());
    await store.addInstrument(instrumentGiven("C-08"));
    const visit = await kept(store, "2026-11-24");
    expect(await store.visit("C-08", visit.id)).toBeNull();
    expect(await store.visit("C-07", nobody)).toBeNull();
    expect(await store.visit("C-07", "no id; drop table visits")).toBeNull();
  });

  test("of an instrument nobody added is not kept", async () => {
    const store = await stores.open();
    expect(await store.keepVisit("C-07", newVisit("2026-11-24", ""), outlookOf)).toEqual({
      outcome: "unknown instrument",
    });
    expect(await store.fileBytes(newVisit("2026-11-24", "").files[0].sha256)).toBeNull();
  });

  test("counts for its instrument, with the decision of the last one", async () => {
    const store = await withCello(stores.open());
    await kept(store, "2026-11-24", { findings: findings(0.2, { decision: "dress" }) });
    await kept(store, "2024-05-01", { findings: findings(0.1, { decision: "leave" }) });
    expect(await store.instrument("C-07")).toMatchObject({
      visits: 2,
      lastVisit: "2026-11-24",
      lastDecision: "dress",
      revision: 1,
    });
  });

  test("whose outlook can't be worked out leaves nothing behind", async () => {
    const store = await withCello(stores.open());
    const visit = newVisit("2026-11-24", "", { player: { hand: "left", notes: "" } });
    const failing = () => {
      throw new RangeError("no outlook");
    };
    await expect(store.keepVisit("C-07", visit, failing)).rejects.toThrow("no outlook");
    expect(await store.instrument("C-07")).toMatchObject({ visits: 0, lastVisit: null });
    expect(await store.fileBytes(visit.files[0].sha256)).toBeNull();
    expect((await store.visits("C-07", { after: null, limit: 10 })).entries).toEqual([]);
    expect(await store.check()).toEqual([]);
    expect((await store.keepVisit("C-07", visit, outlookOf)).outcome).toBe("kept");
  });

  test("is not kept with a file under another hash than its own", async () => {
    const store = await withCello(stores.open());
    const file = { ...givenFile("readings", "a"), sha256: givenFile("readings", "b").sha256 };
    await expect(store.keepVisit("C-07", newVisit("2026-11-24", "", { files: [file] }), outlookOf)).rejects.toThrow(
      "hash",
    );
  });
});

describeOnBothStores("the same visit again", (stores) => {
  test("is there already: the same files, settings and day", async () => {
    const store = await withCello(stores.open());
    const files = [givenFile("readings", "1"), givenFile("thickness", "2")];
    const first = await kept(store, "2026-11-24", { files, settings: { unit: "mm", tip_radius: "1" } });
    const again = newVisit("2026-11-24", "", { files: files.toReversed(), settings: { tip_radius: "1", unit: "mm" } });
    expect(await store.keepVisit("C-07", again, outlookOf)).toEqual({ outcome: "there already", visit: first });
    expect(await store.instrument("C-07")).toMatchObject({ visits: 1 });
  });

  test.each([
    ["day", { date: "2026-11-25" }],
    ["setting", { settings: { tip_radius: "1.5" } }],
    ["readings", { files: [givenFile("readings", "others")] }],
    ["part of the file", { files: [{ ...givenFile("rail", "1") }] }],
  ])("is another one with another %s", async (_what, others) => {
    const store = await withCello(stores.open());
    const first = newVisit("2026-11-24", "", { files: [givenFile("readings", "1")] });
    await store.keepVisit("C-07", first, outlookOf);
    expect((await store.keepVisit("C-07", { ...first, ...others }, outlookOf)).outcome).toBe("kept");
  });

  test("is another one of another instrument, whose file is kept once", async () => {
    const where = await stores.newPlace();
    const store = await withCello(stores.open({ where }));
    await store.addInstrument(instrumentGiven("C-08"));
    const visit = newVisit("2026-11-24", "");
    for (const number of ["C-07", "C-08"])
      expect((await store.keepVisit(number, visit, outlookOf)).outcome).toBe("kept");
    expect(await askDatabase(where, "select sha256 from files")).toHaveLength(1);
    const holders = await store.visitsWithFile(visit.files[0].sha256);
    expect(holders.map(({ instrumentNumber }) => instrumentNumber).toSorted()).toEqual(["C-07", "C-08"]);
    expect(await store.visitsWithFile("0".repeat(64))).toEqual([]);
  });

  test("is kept once, however many send it at the same moment through two servers", async () => {
    const where = await stores.newPlace();
    const one = await withCello(stores.open({ where }));
    const other = await stores.open({ where });
    const visit = newVisit("2026-11-24", "");
    const answers = await Promise.all(
      Array.from({ length: 12 }, (_, i) => (i % 2 ? one : other).keepVisit("C-07", visit, outlookOf)),
    );
    expect(answers.filter(({ outcome }) => outcome === "kept")).toHaveLength(1);
    expect(answers.filter(({ outcome }) => outcome === "there already")).toHaveLength(11);
    expect(new Set(answers.map((answer) => "visit" in answer && answer.visit.id)).size).toBe(1);
    expect(await one.check()).toEqual([]);
  });
});

describeOnBothStores("visits kept at the same moment through two servers", (stores) => {
  test("lose neither one another nor one another's outlook", { timeout: 60_000 }, async () => {
    const where = await stores.newPlace();
    const one = await withCello(stores.open({ where }));
    const other = await stores.open({ where });
    const days = Array.from({ length: 30 }, (_, i) => `2026-01-${String(i + 1).padStart(2, "0")}`);
    await Promise.all(days.map((day, i) => kept(i % 2 ? one : other, day)));
    expect(await one.instrument("C-07")).toMatchObject({ visits: 30, lastVisit: "2026-01-30" });
    const { entries } = await other.due({ after: null, limit: 10 });
    expect(entries[0].outlook.dressing).toMatchObject({ says: "of 30 visits" });
    expect((await one.historyVisits("C-07")).map(({ date }) => date)).toEqual(days);
    expect(await one.check()).toEqual([]);
  });

  test("of many instruments that share their files wait for one another without end nowhere", {
    timeout: 60_000,
  }, async () => {
    const where = await stores.newPlace();
    const [one, other] = [await stores.open({ where }), await stores.open({ where })];
    const numbers = Array.from({ length: 20 }, (_, i) => `C-${i}`);
    for (const number of numbers) await one.addInstrument(instrumentGiven(number));
    const files = ["1", "2", "3"].map((text, i) => givenFile((["readings", "thickness", "rail"] as const)[i], text));
    await Promise.all(
      numbers.map((number, i) =>
        kept(i % 2 ? one : other, "2026-01-01", { files: i % 3 ? files : files.toReversed() }, number),
      ),
    );
    expect(await one.visitsWithFile(files[0].sha256)).toHaveLength(20);
  });
});

describeOnBothStores("an instrument's visits", (stores) => {
  const days = ["2024-05-01", "2026-11-24", "2023-01-31", "2026-11-24", "2025-02-28"];

  async function withVisits(): Promise<Store> {
    const store = await withCello(stores.open());
    for (const [i, day] of days.entries()) await kept(store, day, { settings: { tip_radius: String(i) } });
    return store;
  }

  test("are listed newest first, those of one day in the order in which they were kept, page by page", async () => {
    const store = await withVisits();
    const all = (await store.visits("C-07", { after: null, limit: 200 })).entries;
    expect(all.map(({ date, settings }) => [date, settings.tip_radius])).toEqual([
      ["2026-11-24", "3"],
      ["2026-11-24", "1"],
      ["2025-02-28", "4"],
      ["2024-05-01", "0"],
      ["2023-01-31", "2"],
    ]);
    for (const limit of [1, 2, 3, 4, 5]) {
      const paged = [];
      for (let after: string | null = null; ; ) {
        const page = await store.visits("C-07", { after, limit });
        paged.push(...page.entries);
        if (page.next === null) break;
        after = page.next;
      }
      expect(paged).toEqual(all);
    }
  });

  test("are history oldest first", async () => {
    const store = await withVisits();
    const history = await store.historyVisits("C-07");
    expect(history.map(({ date }) => date)).toEqual(days.toSorted());
    expect(history[0]).toEqual({
      id: expect.any(String),
      date: "2023-01-31",
      hoursPlayed: null,
      workDone: "none",
      afterVisit: null,
      findings: findings(0.2),
    });
    expect(await store.historyVisits("C-08")).toEqual([]);
  });

  test("are listed from no place of another instrument's list", async () => {
    const store = await withVisits();
    await store.addInstrument(instrumentGiven("C-08"));
    const { next } = await store.visits("C-07", { after: null, limit: 1 });
    await expect(store.visits("C-08", { after: next, limit: 1 })).rejects.toThrow(BadCursor);
  });
});

describeOnBothStores("a visit whose notes are changed", (stores) => {
  test("takes over what was said and keeps the rest; history follows", async () => {
    const store = await withCello(stores.open());
    const before = await kept(store, "2026-11-24");
    const answer = await store.changeVisit("C-07", before.id, 1, { workDone: "dressed", hoursPlayed: 12 }, outlookOf);
    const after = { ...before, workDone: "dressed", hoursPlayed: 12, revision: 2 };
    expect(answer).toEqual({ outcome: "changed", entry: after });
    expect(await store.visit("C-07", before.id)).toEqual(after);
    expect(await store.historyVisits("C-07")).toMatchObject([{ workDone: "dressed", hoursPlayed: 12 }]);
  });

  test("tells the later of two how it stands, and takes nothing from them", async () => {
    const store = await withCello(stores.open());
    const { id } = await kept(store, "2026-11-24");
    await store.changeVisit("C-07", id, 1, { reason: "first" }, outlookOf);
    const second = await store.changeVisit("C-07", id, 1, { reason: "second" }, outlookOf);
    expect(second).toEqual({ outcome: "changed meanwhile", now: await store.visit("C-07", id) });
    expect((await store.visit("C-07", id))?.reason).toBe("first");
  });

  test("loses none of two changes at the same moment through two servers: one of them is told", async () => {
    const where = await stores.newPlace();
    const one = await withCello(stores.open({ where }));
    const other = await stores.open({ where });
    const { id } = await kept(one, "2026-11-24");
    const answers = await Promise.all(
      [one, other].map((store, i) => store.changeVisit("C-07", id, 1, { reason: `${i}` }, outlookOf)),
    );
    expect(answers.map(({ outcome }) => outcome).toSorted()).toEqual(["changed", "changed meanwhile"]);
  });

  test("does not count any more once it is withdrawn, and counts again; its readings stay", async () => {
    const store = await withCello(stores.open());
    await kept(store, "2024-05-01");
    const slip = await kept(store, "2026-11-24");
    await store.changeVisit("C-07", slip.id, 1, { withdrawn: "another instrument's readings" }, outlookOf);
    expect(await store.instrument("C-07")).toMatchObject({ visits: 1, lastVisit: "2024-05-01" });
    expect(await store.historyVisits("C-07")).toHaveLength(1);
    expect((await store.visits("C-07", { after: null, limit: 10 })).entries).toHaveLength(2);
    expect(await store.fileBytes(slip.files[0].sha256)).not.toBeNull();
    expect(await store.check()).toEqual([]);
    await store.changeVisit("C-07", slip.id, 2, { withdrawn: null }, outlookOf);
    expect(await store.instrument("C-07")).toMatchObject({ visits: 2, lastVisit: "2026-11-24" });
  });

  test("is the only one, and is withdrawn: there is no outlook left", async () => {
    const store = await withCello(stores.open());
    const { id } = await kept(store, "2026-11-24");
    await store.changeVisit("C-07", id, 1, { withdrawn: "a slip" }, outlookOf);
    expect(await store.instrument("C-07")).toMatchObject({ visits: 0, lastVisit: null, lastDecision: null });
    expect((await store.due({ after: null, limit: 1 })).entries[0].outlook.dressing.told).toBe("not yet");
  });

  test("is unknown under another instrument", async () => {
    const store = await withCello(stores.open());
    await store.addInstrument(instrumentGiven("C-08"));
    const { id } = await kept(store, "2026-11-24");
    expect(await store.changeVisit("C-08", id, 1, {}, outlookOf)).toEqual({ outcome: "unknown" });
    expect(await store.changeVisit("C-09", id, 1, {}, outlookOf)).toEqual({ outcome: "unknown" });
    expect(await store.changeVisit("C-07", nobody, 1, {}, outlookOf)).toEqual({ outcome: "unknown" });
  });
});

describeOnBothStores("a visit after the work", (stores) => {
  test("names the one before it, of the same instrument", async () => {
    const store = await withCello(stores.open());
    await store.addInstrument(instrumentGiven("C-08"));
    const before = await kept(store, "2026-11-24");
    const after = await kept(store, "2026-11-25", { notes: visitNotes({ afterVisit: before.id }) });
    expect(after.afterVisit).toBe(before.id);
    const ofAnother = newVisit("2026-11-25", "", { notes: visitNotes({ afterVisit: before.id }) });
    expect(await store.keepVisit("C-08", ofAnother, outlookOf)).toEqual({ outcome: "unknown visit" });
    expect(await store.instrument("C-08")).toMatchObject({ visits: 0 });
    const ofNone = newVisit("2026-11-26", "", { notes: visitNotes({ afterVisit: nobody }) });
    expect(await store.keepVisit("C-07", ofNone, outlookOf)).toEqual({ outcome: "unknown visit" });
  });

  test("does not follow itself, nor one that follows it", async () => {
    const store = await withCello(stores.open());
    const [a, b, c] = [
      await kept(store, "2026-01-01"),
      await kept(store, "2026-01-02"),
      await kept(store, "2026-01-03"),
    ];
    const follow = (one: string, other: string, revision: number) =>
      store.changeVisit("C-07", one, revision, { afterVisit: other }, outlookOf);
    expect(await follow(a.id, a.id, 1)).toEqual({ outcome: "unknown visit" });
    expect(await follow(b.id, a.id, 1)).toMatchObject({ outcome: "changed" });
    expect(await follow(c.id, b.id, 1)).toMatchObject({ outcome: "changed" });
    expect(await follow(a.id, c.id, 1)).toEqual({ outcome: "unknown visit" });
    expect(await store.changeVisit("C-07", c.id, 2, { afterVisit: null }, outlookOf)).toMatchObject({
      outcome: "changed",
    });
    expect(await follow(a.id, c.id, 1)).toMatchObject({ outcome: "changed" });
  });
});

describeOnBothStores("a visit of another store", (stores) => {
  const id = "22222222-2222-4222-8222-222222222222";
  const brought = (others: object = {}) => {
    const { date, settings, notes, files } = newVisit("2020-02-29", "");
    const examination = celloExamined();
    const examinations = ["0.1", "0.2"].map((version, i) => ({
      ordinal: i + 1,
      version,
      examinedAt: `202${i}-03-01T00:00:00.000Z`,
      findings: findings(0.1 * (i + 1)),
      examination: { ...examination, version },
    }));
    const player = { hand: "right", notes: "", revision: 4 };
    return {
      id,
      date,
      recordedAt: "2020-03-01T00:00:00.000Z",
      revision: 3,
      settings,
      notes,
      player,
      files,
      examinations,
      ...others,
    };
  };

  test("keeps its id, times, revisions and every examination", async () => {
    const store = await withCello(stores.open());
    const answer = await store.importVisit("C-07", brought(), outlookOf);
    expect(answer).toMatchObject({
      outcome: "kept",
      visit: { id, recordedAt: "2020-03-01T00:00:00.000Z", revision: 3, version: "0.2", findings: findings(0.2) },
    });
    const { entries } = await store.examinations(id, { after: null, limit: 10 });
    expect(entries.map(({ ordinal, version, examinedAt }) => [ordinal, version, examinedAt])).toEqual([
      [1, "0.1", "2020-03-01T00:00:00.000Z"],
      [2, "0.2", "2021-03-01T00:00:00.000Z"],
    ]);
    expect(await store.playerNotes(id)).toEqual({ hand: "right", notes: "", revision: 4 });
    expect(await store.check()).toEqual([]);
  });

  test("is there already by its id, or by its files, settings and day", async () => {
    const store = await withCello(stores.open());
    await store.importVisit("C-07", brought(), outlookOf);
    const sameId = brought({ date: "2020-03-31" });
    const sameReadings = brought({ id: nobody });
    for (const again of [sameId, sameReadings]) {
      expect(await store.importVisit("C-07", again, outlookOf)).toMatchObject({
        outcome: "there already",
        visit: { id },
      });
    }
    expect(await store.instrument("C-07")).toMatchObject({ visits: 1 });
  });

  test("is told where another instrument's visit has its id", async () => {
    const store = await withCello(stores.open());
    await store.addInstrument(instrumentGiven("C-08"));
    await store.importVisit("C-07", brought(), outlookOf);
    expect(await store.importVisit("C-08", brought(), outlookOf)).toEqual({ outcome: "id taken" });
    expect(await store.importVisit("C-09", brought({ id: nobody }), outlookOf)).toEqual({
      outcome: "unknown instrument",
    });
  });
});

describeOnBothStores("what was given", (stores) => {
  test.each([
    ["a visit", "delete from visits"],
    ["a visit's day", "update visits set date = '2000-01-01'"],
    ["a visit's notes, as a whole,", "delete from visit_notes"],
    ["a file", "delete from files"],
    ["a file's bytes", "update files set byte_count = 0"],
    ["which file it was", "update visit_files set part = 'rail'"],
    ["an examination", "delete from examinations"],
    ["an examination's findings", "update examinations set findings = '{}'"],
    ["an instrument", "delete from instruments"],
  ])("can't be taken away even past the program: %s", async (_what, statement) => {
    const where = await stores.newPlace();
    const store = await withCello(stores.open({ where }));
    await kept(store, "2026-11-24");
    await expect(askDatabase(where, statement)).rejects.toThrow("kept for ever");
    expect(await store.check()).toEqual([]);
  });
});
