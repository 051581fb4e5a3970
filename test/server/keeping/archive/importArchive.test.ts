/**
 * Bringing an archive in: what fits goes in, each visit whole; what does not is refused and named, and nothing here is written over.
 *
 * The archives are exported, then changed as a slip, a damaged disk or somebody who means harm would change them.
 */
import { describe, expect, test } from "vitest";
import { archiveShapes } from "../../../../server/http/wire/archive.ts";
import { loadInstrumentTable } from "../../../../server/instrumentTable.ts";
import {
  type Imported,
  type ImportLine,
  importArchive,
  importLimits,
} from "../../../../server/keeping/archive/importArchive.ts";
import type { Store } from "../../../../server/records/store.ts";
import { changed, exported, inFile, type Members, membersOf, packed } from "../../../support/archives.ts";
import { instrumentGiven, keepTwoCellos, newVisit, outlookOf, visitNotes } from "../../../support/recordsForTests.ts";
import { describeOnBothStores, storesForTests } from "../../../support/storesForTests.ts";

const whole = { after: null, limit: 200 };

async function bringIn(
  store: Store,
  archive: Buffer,
  { limits = importLimits(64 * 2 ** 20), tell = (_line: ImportLine): void => undefined } = {},
): Promise<Imported> {
  const table = loadInstrumentTable();
  return importArchive(inFile(archive), { store, table, shapes: archiveShapes, limits, now: new Date(), tell });
}

async function withCellos(store: Store): Promise<Store> {
  await keepTwoCellos(store);
  return store;
}

function pathOf(members: Members, pattern: RegExp): string {
  const path = [...members.keys()].find((one) => pattern.test(one));
  if (path === undefined) throw new Error(`no ${pattern}`);
  return path;
}

/** A member's JSON with other values at these places ("notes.reason", "files.0.part"). */
function edited(members: Members, path: string, values: Readonly<Record<string, unknown>>): Record<string, string> {
  const json = JSON.parse(members.get(path)!.toString());
  for (const [place, value] of Object.entries(values)) {
    const keys = place.split(".");
    const last = keys.pop()!;
    keys.reduce((inside, key) => inside[key], json)[last] = value;
  }
  return { [path]: JSON.stringify(json) };
}

describeOnBothStores("an archive brought into a store that is in use", (stores) => {
  test("leaves what is here as it is, and says on which side something was changed later", async () => {
    const store = await withCellos(await stores.open());
    const archive = await exported(store);
    const [later] = (await store.visits("C-07", whole)).entries;
    await store.changeVisit("C-07", later!.id, 1, { reason: "changed here" }, outlookOf);
    await store.changeInstrument("C-19", 1, { number: "C-19a" });
    const imported = await bringIn(store, archive);
    expect(imported).toMatchObject({
      added: { instruments: 0, visits: 0 },
      alreadyThere: { instruments: 2, visits: 3 },
      remarks: [
        {
          instrument: "C-07",
          visit: `2026-05-04-${later!.id}`,
          says: "the visit was changed later here; what is here stays.",
        },
        { instrument: "C-19a", visit: null, says: "the instrument was changed later here; what is here stays." },
      ],
    });
    expect((await store.visit("C-07", later!.id))?.reason).toBe("changed here");
    expect(await store.instrument("C-19")).toBeNull();
  });

  test("refuses a number that another instrument has here, with its visits; the rest goes in", async () => {
    const archive = await exported(await withCellos(await stores.open()));
    const store = await stores.open();
    const { instrument } = await store.addInstrument(instrumentGiven("c-07", { label: "another one" }));
    const lines: ImportLine[] = [];
    const imported = await bringIn(store, archive, { tell: (line) => lines.push(line) });
    expect(imported).toMatchObject({
      added: { instruments: 1, visits: 1 },
      refused: { instruments: 1, visits: 2 },
      remarks: [
        { instrument: "C-07", visit: null, outcome: "refused", says: expect.stringMatching(/another instrument has/) },
      ],
    });
    expect(lines.filter(({ outcome }) => outcome === "refused")).toHaveLength(3);
    expect(await store.instrument("C-07")).toEqual(instrument);
    expect(await store.instrument("C-19")).not.toBeNull();
  });

  test("knows the same readings, settings and day that were kept here by themselves, and what was measured again after them", async () => {
    const home = await stores.open();
    await home.addInstrument(instrumentGiven("C-07"));
    const before = await home.keepVisit("C-07", newVisit("2026-05-04", "before"), outlookOf);
    if (before.outcome !== "kept") throw new Error(before.outcome);
    const notes = visitNotes({ afterVisit: before.visit.id });
    await home.keepVisit("C-07", newVisit("2026-05-05", "after", { notes }), outlookOf);

    const store = await stores.open();
    const bare = await membersOf(await exported(home));
    const onlyInstrument = edited(bare, "instruments/C-07/instrument.json", { visits: [] });
    await bringIn(store, await changed(bare, onlyInstrument));
    const here = await store.keepVisit("C-07", newVisit("2026-05-04", "before"), outlookOf);
    if (here.outcome !== "kept") throw new Error(here.outcome);

    expect(await bringIn(store, await exported(home))).toMatchObject({
      added: { visits: 1 },
      alreadyThere: { visits: 1 },
      remarks: [{ says: "the same readings, settings and day were kept here by themselves." }],
    });
    const [after] = (await store.visits("C-07", whole)).entries;
    expect(after?.afterVisit).toBe(here.visit.id);
  });

  test("goes on from where it was cut short", async () => {
    const archive = await exported(await withCellos(await stores.open()));
    const store = await stores.open();
    let count = 0;
    const cutShort = bringIn(store, archive, {
      tell: () => {
        if (++count === 3) throw new Error("the power went");
      },
    });
    await expect(cutShort).rejects.toThrow("the power went");
    expect(await bringIn(store, archive)).toMatchObject({
      added: { instruments: 1, visits: 1 },
      alreadyThere: { instruments: 1, visits: 2 },
      refused: { instruments: 0, visits: 0 },
    });
    expect(await store.check()).toEqual([]);
  });
});

describe("an archive", () => {
  const stores = storesForTests("SQLite");
  const home = async () => membersOf(await exported(await withCellos(await stores.open())));

  test.each([
    ["of something else", async () => packed([["photo.txt", Buffer.from("x")]]), /no archive\.json/],
    [
      "without its check sums",
      async (m: Members) => packed([...m].filter(([path]) => path !== "sha256sums.txt")),
      /sha256sums\.txt: it is missing/,
    ],
    [
      "with check sums that are none",
      (m: Members) => packed(new Map([...m, ["sha256sums.txt", Buffer.from("abc\n")]])),
      /line 1 is no check sum/,
    ],
    [
      "of a newer form",
      (m: Members) => changed(m, { "archive.json": '{"archive":"Boardtrue records","form":2,"withPlayers":true}' }),
      /newer version/,
    ],
    [
      "of another kind",
      (m: Members) => changed(m, { "archive.json": '{"archive":"photographs","form":1,"withPlayers":true}' }),
      /not written as records are/,
    ],
    ["whose first page is no JSON", (m: Members) => changed(m, { "archive.json": "{" }), /no JSON/],
  ])("%s is refused as a whole, and nothing goes in", async (_what, make, why) => {
    const store = await stores.open();
    const imported = await bringIn(store, await make(await home()));
    expect(imported).toEqual({ outcome: "refused", why: expect.stringMatching(why) });
    expect((await store.findInstruments("", whole)).entries).toEqual([]);
  });

  type Change = (members: Members, visit: string) => Record<string, string | Uint8Array | null>;
  const visitEdited =
    (values: Readonly<Record<string, unknown>>): Change =>
    (members, visit) =>
      edited(members, visit, values);

  test.each<readonly [string, Change, RegExp]>([
    [
      "lost its readings",
      (_m, visit) => ({ [visit.replace("visit.json", "readings.csv")]: null }),
      /readings\.csv: it is missing/,
    ],
    [
      "holds other readings than it names",
      (_m, visit) => ({ [visit.replace("visit.json", "readings.csv")]: "x,y,height\n" }),
      /not the file that the visit names/,
    ],
    [
      "lost its examination",
      (_m, visit) => ({ [visit.replace("visit.json", "examination-1.json")]: null }),
      /examination-1\.json: it is missing/,
    ],
    [
      "has an examination that is none",
      (_m, visit) => ({ [visit.replace("visit.json", "examination-1.json")]: '{"version":"1"}' }),
      /no examination/,
    ],
    [
      "has an examination nested a million deep",
      (_m, visit) => ({ [visit.replace("visit.json", "examination-1.json")]: "[".repeat(1_000_000) }),
      /no examination/,
    ],
    ["is no JSON", (_m, visit) => ({ [visit]: "<html>" }), /visit\.json: it is no JSON/],
    ["is no UTF-8", (_m, visit) => ({ [visit]: Buffer.from([0x22, 0xff, 0x22]) }), /no JSON in UTF-8/],
    ["says more than visits say", visitEdited({ extra: 1 }), /not written as records are/],
    ["bears an id that is none", visitEdited({ id: "../../x" }), /look at "id"/],
    ["took place on a day that never was", visitEdited({ date: "2026-02-30" }), /no "2026-02-30" in the calendar/],
    ["was recorded at no time", visitEdited({ recordedAt: "yesterday" }), /look at "recordedAt"/],
    ["holds a NUL", visitEdited({ "notes.reason": "a\0b" }), /can't be shown/],
    ["holds half a character", visitEdited({ "notes.gauge": "\ud800" }), /can't be shown/],
    ["turns the direction of writing", visitEdited({ "notes.rail": "abc\u202Edef" }), /can't be shown/],
    ["is wetter than wet", visitEdited({ "notes.humidityPercent": 101 }), /humidity/],
    ["had work done that there is not", visitEdited({ "notes.workDone": "burnt" }), /the work done/],
    [
      "measures again after a visit of nobody",
      visitEdited({ "notes.afterVisit": "00000000-0000-4000-8000-000000000000" }),
      /after a visit that is not here/,
    ],
    ["names a file of another part", visitEdited({ "files.0.part": "../readings" }), /look at "files\.0\.part"/],
    ["names no readings", visitEdited({ files: [] }), /names no readings/],
    [
      "names its readings twice",
      (m, visit) => edited(m, visit, { files: Array(2).fill(JSON.parse(m.get(visit)!.toString()).files[0]) }),
      /names a file twice/,
    ],
    ["was never examined", visitEdited({ examinations: [] }), /look at "examinations"/],
    ["has settings that can't be shown", visitEdited({ settings: { unit: "mm\u0007" } }), /can't be shown/],
    [
      "has a player of another shape",
      (_m, visit) => ({ [visit.replace("visit.json", "player.json")]: '{"hand":1}' }),
      /player\.json: it is not written/,
    ],
    [
      "has a player who can't be shown",
      (_m, visit) => ({ [visit.replace("visit.json", "player.json")]: '{"hand":"a\\u0000","notes":"","revision":1}' }),
      /hand/,
    ],
  ])("whose visit %s: that visit is refused in words, the others go in", async (_what, change, why) => {
    const members = await home();
    const visit = pathOf(members, /C-07\/visits\/2024-.*visit\.json$/);
    const store = await stores.open();
    const imported = await bringIn(store, await changed(members, change(members, visit)));
    expect(imported).toMatchObject({
      added: { instruments: 2, visits: 2 },
      refused: { instruments: 0, visits: 1 },
      remarks: [{ instrument: "C-07", visit: expect.stringMatching(/^2024-05-06-/), says: expect.stringMatching(why) }],
    });
    expect((await store.visits("C-07", whole)).entries).toHaveLength(1);
    expect(await store.check()).toEqual([]);
  });

  test("whose settings hold a prototype: that is no setting, and is left out", async () => {
    const members = await home();
    const visit = pathOf(members, /C-07\/visits\/2024-.*visit\.json$/);
    const text = members.get(visit)!.toString().replace('"settings": {', '"settings": { "__proto__": { "x": 1 },');
    expect(text).toContain("__proto__");
    const store = await stores.open();
    expect(await bringIn(store, await changed(members, { [visit]: text }))).toMatchObject({ added: { visits: 3 } });
    const [, first] = (await store.visits("C-07", whole)).entries;
    expect(first?.settings).toEqual({ tip_radius: "1" });
    expect("x" in {}).toBe(false);
  });

  test("whose file was changed since: told by its check sum", async () => {
    const members = new Map(await home());
    const readings = pathOf(members, /C-07\/visits\/2024-.*readings\.csv$/);
    members.set(readings, Buffer.from("x,y,height\n"));
    expect(await bringIn(await stores.open(), await packed(members))).toMatchObject({
      refused: { visits: 1 },
      remarks: [{ says: "readings.csv: it is not as it was exported (its check sum differs)." }],
    });
  });

  const instrument = "instruments/C-07/instrument.json";
  test.each<readonly [string, (members: Members) => Record<string, string | null>, RegExp, number]>([
    ["is missing", () => ({ [instrument]: null }), /instrument\.json: it is missing/, 0],
    ["is no instrument of ours", (m) => edited(m, instrument, { instrument: "lute" }), /lute/, 2],
    ["has no number", (m) => edited(m, instrument, { number: " " }), /no number/, 2],
    ["has a number of dots", (m) => edited(m, instrument, { number: ".." }), /dots|letter or a digit/, 2],
    [
      "has a board of a mile",
      (m) => edited(m, instrument, { dimensions: { board_length: "1609344" } }),
      /board_length/,
      2,
    ],
    [
      "has visits elsewhere",
      (m) => edited(m, instrument, { visits: ["../../C-19/visits/x"] }),
      /look at "visits\.0"/,
      0,
    ],
  ])(
    "whose instrument %s: it is refused with its visits, the others go in",
    async (_what, change, why, refusedVisits) => {
      const members = await home();
      const store = await stores.open();
      const imported = await bringIn(store, await changed(members, change(members)));
      expect(imported).toMatchObject({
        added: { instruments: 1, visits: 1 },
        refused: { instruments: 1, visits: refusedVisits },
      });
      expect(imported.outcome === "taken in" && imported.remarks[0]?.says).toMatch(why);
      expect((await store.findInstruments("", whole)).entries.map(({ number }) => number)).toEqual(["C-19"]);
    },
  );

  test("that brings one visit for two instruments: the second is refused", async () => {
    const members = await home();
    const mine = pathOf(members, /C-07\/visits\/2024-.*visit\.json$/);
    const theirs = pathOf(members, /C-19\/visits\/.*visit\.json$/);
    const id = JSON.parse(members.get(mine)!.toString()).id;
    const store = await stores.open();
    const twice = await changed(members, edited(members, theirs, { id: id }));
    expect(await bringIn(store, twice)).toMatchObject({
      refused: { instruments: 0, visits: 1 },
      remarks: [{ instrument: "C-19", says: "another instrument has this visit here." }],
    });
  });

  test("larger in one file than an upload may be: that visit is refused", async () => {
    const limits = importLimits(100);
    expect(await bringIn(await stores.open(), await packed(await home()), { limits })).toMatchObject({
      added: { instruments: 2, visits: 0 },
      refused: { visits: 3 },
    });
  });

  test("without its players' notes goes in all the same", async () => {
    const members = await home();
    const without = [...members].filter(([path]) => !path.endsWith("player.json"));
    expect(await bringIn(await stores.open(), await packed(without))).toMatchObject({
      added: { instruments: 2, visits: 3 },
      refused: { instruments: 0, visits: 0 },
    });
  });

  test("in which a visit stands before the one it measures again after", async () => {
    const store = await stores.open();
    await store.addInstrument(instrumentGiven("C-07"));
    const before = await store.keepVisit("C-07", newVisit("2026-05-05", "before"), outlookOf);
    if (before.outcome !== "kept") throw new Error(before.outcome);
    const notes = visitNotes({ afterVisit: before.visit.id });
    await store.keepVisit("C-07", newVisit("2026-05-04", "a slip in the date", { notes }), outlookOf);
    const other = await stores.open();
    expect(await bringIn(other, await exported(store))).toMatchObject({ added: { visits: 2 }, refused: { visits: 0 } });
  });
});
