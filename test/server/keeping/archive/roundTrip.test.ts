/**
 * Everything out, into an empty store of the other database, and out again: the same archive, byte for byte.
 *
 * What goes through it is a loan store with all that records may hold: numbers of any letters, pairs, a withdrawn visit, two visits on one day,
 * examinations made again, notes changed later, and what was noted about players.
 */
import { createHash } from "node:crypto";
import { describe, expect, test } from "vitest";
import { archiveShapes } from "../../../../server/http/wire/archive.ts";
import { loadInstrumentTable } from "../../../../server/instrumentTable.ts";
import { type Imported, importArchive, importLimits } from "../../../../server/keeping/archive/importArchive.ts";
import type { Store } from "../../../../server/records/store.ts";
import { exported, inFile, membersOf, packed } from "../../../support/archives.ts";
import {
  celloExamined,
  findings,
  givenFile,
  instrumentGiven,
  newVisit,
  outlookOf,
  visitNotes,
} from "../../../support/recordsForTests.ts";
import { storesForTests } from "../../../support/storesForTests.ts";

const numbers = ["C-07", "C 08", "12/3", "Ü-1", "琴", "<b>x</b>", "..7", "con", "=1+1", "C-08"];

async function fill(store: Store): Promise<void> {
  for (const number of numbers) {
    await store.addInstrument(
      instrumentGiven(number, {
        label: `loan "${number}", ; ' \u{1F3BB}`,
        build: number === "12/3" ? "veneered" : "solid",
        valuable: number === "Ü-1",
        dimensions: number === "C-07" ? { board_length: "591,5", edge_limit: "5.4" } : {},
      }),
    );
  }
  const keep = async (date: string, says: string, others: Parameters<typeof newVisit>[2] = {}, number = "C-07") => {
    const kept = await store.keepVisit(number, newVisit(date, says, others), outlookOf);
    if (kept.outcome !== "kept") throw new Error(kept.outcome);
    return kept.visit;
  };
  const second = await keep("2026-05-04", "kept before the first one");
  const first = await keep("2024-02-29", "first", {
    files: [
      givenFile("readings", "x,y,height\r\n\u{FEFF}1;2;3\0\r"),
      givenFile("thickness", "x,side,thickness\n10,bass,5.1\n"),
      givenFile("rail", "x,error\n0,0\n"),
    ],
    player: { hand: "left, small", notes: "=presses\nhard" },
    notes: visitNotes({
      reason: "buzzes\n\ton D",
      humidityPercent: 45.5,
      hoursPlayed: 120.25,
      workNotes: "'new strings",
    }),
  });
  await keep("2026-05-04", "after the work", {
    notes: visitNotes({ afterVisit: second.id, workDone: "dressed" }),
    settings: {},
  });
  await keep("2026-05-04", "a third that day", {}, "C 08");
  await keep("2026-05-04", "and once more that day", {}, "C 08");
  await keep("2025-01-01", "of the lute", {}, "琴");
  await store.addExamination(
    first.id,
    { examination: { ...celloExamined(), version: "9" }, findings: findings(0.3) },
    outlookOf,
  );
  await store.changeVisit("C-07", second.id, 1, { withdrawn: "wrong instrument", decisionTaken: "dress" }, outlookOf);
  await store.setPlayerNotes(first.id, 1, { hand: "right", notes: "" });
  await store.changeInstrument("C-07", 1, { label: "renamed" });
}

function bringIn(store: Store, archive: Buffer): Promise<Imported> {
  return importArchive(inFile(archive), {
    store,
    table: loadInstrumentTable(),
    shapes: archiveShapes,
    limits: importLimits(64 * 2 ** 20),
    now: new Date(),
  });
}

const none = { instruments: 0, visits: 0 };
const all = { instruments: numbers.length, visits: 6 };

describe.each([
  ["SQLite", "PostgreSQL"],
  ["PostgreSQL", "SQLite"],
] as const)("records exported from %s and brought into %s", (here, there) => {
  const [homeStores, otherStores] = [storesForTests(here), storesForTests(there)];

  test("come out again byte for byte, and a second time add nothing", async () => {
    const home = await homeStores.open();
    await fill(home);
    const archive = await exported(home);
    const other = await otherStores.open();
    expect(await bringIn(other, archive)).toEqual({
      outcome: "taken in",
      added: all,
      alreadyThere: none,
      refused: none,
      remarks: [],
    });
    const again = await exported(other);
    expect([...(await membersOf(again)).keys()]).toEqual([...(await membersOf(archive)).keys()]);
    expect(again.equals(archive)).toBe(true);
    expect(await bringIn(other, archive)).toMatchObject({ added: none, alreadyThere: all, refused: none, remarks: [] });
    expect((await exported(other)).equals(archive)).toBe(true);
    expect(await other.check()).toEqual([]);
  });

  test("keep ids, revisions and times, outlook and order", async () => {
    const home = await homeStores.open();
    await fill(home);
    const other = await otherStores.open();
    await bringIn(other, await exported(home));
    const whole = { after: null, limit: 200 };
    expect(await other.findInstruments("", whole)).toEqual(await home.findInstruments("", whole));
    const visits = await home.visits("C-07", whole);
    expect(visits.entries).toHaveLength(3);
    expect(await other.visits("C-07", whole)).toEqual(visits);
    for (const { id } of visits.entries) {
      expect(await other.playerNotes(id)).toEqual(await home.playerNotes(id));
      expect(await other.examinations(id, whole)).toEqual(await home.examinations(id, whole));
      expect(await other.examination(id)).toEqual(await home.examination(id));
    }
    const due = async (store: Store) =>
      (await store.due(whole)).entries.map(({ instrumentNumber }) => instrumentNumber);
    expect(await due(other)).toHaveLength(numbers.length);
  });
});

describe("an archive", () => {
  const stores = storesForTests("SQLite");

  test("names a check sum of every other member, as sha256sum reads them", async () => {
    const store = await stores.open();
    await fill(store);
    const members = await membersOf(await exported(store));
    const lines = [...members]
      .filter(([path]) => path !== "sha256sums.txt")
      .map(([path, bytes]) => `${createHash("sha256").update(bytes).digest("hex")}  ${path}\n`);
    expect(members.get("sha256sums.txt")?.toString()).toBe(lines.join(""));
  });

  test("holds the files as they were given, and each examination as `examine --json` prints it", async () => {
    const store = await stores.open();
    await fill(store);
    const members = await membersOf(await exported(store));
    const visit = [...members.keys()].find(
      (path) => path.includes("/visits/2024-02-29-") && path.endsWith("visit.json"),
    );
    const folder = visit!.slice(0, -"visit.json".length);
    expect(members.get(`${folder}readings.csv`)?.toString()).toBe("x,y,height\r\n\u{FEFF}1;2;3\0\r");
    expect(members.get(`${folder}rail.csv`)?.toString()).toBe("x,error\n0,0\n");
    const text = members.get(`${folder}examination-2.json`)!.toString();
    expect(text.startsWith('{\n"version":"9",\n"instrument":')).toBe(true);
    const id = JSON.parse(members.get(visit!)!.toString()).id;
    expect(JSON.parse(text)).toEqual((await store.examination(id, 2))?.examination);
  });

  test("bears every number in letters, digits and dashes, none twice", async () => {
    const store = await stores.open();
    await fill(store);
    const members = await membersOf(await exported(store));
    const folders = [...members]
      .filter(([path]) => path.endsWith("instrument.json"))
      .map(([path, bytes]) => [JSON.parse(bytes.toString()).number, path.split("/")[1]]);
    expect(Object.fromEntries(folders)).toEqual({
      "C-07": "C-07",
      "C 08": "instrument-7",
      "12/3": "12-3",
      "Ü-1": "1",
      琴: "instrument-10",
      "<b>x</b>": "b-x-b",
      "..7": "7",
      con: "instrument-8",
      "=1+1": "1-1",
      "C-08": "C-08",
    });
    for (const path of members.keys()) expect(path).toMatch(/^[A-Za-z0-9][\w./-]*$/);
  });

  test("leaves out what concerns a person where that is wished, and nothing else", async () => {
    const store = await stores.open();
    await fill(store);
    const [withPlayers, without] = [
      await membersOf(await exported(store)),
      await membersOf(await exported(store, false)),
    ];
    const missing = [...withPlayers.keys()].filter((path) => !without.has(path));
    expect(missing).toEqual([expect.stringMatching(/\/player\.json$/)]);
    expect(Buffer.concat([...without.values()]).includes("right")).toBe(false);
    const other = await stores.open();
    expect(await bringIn(other, await exported(store, false))).toMatchObject({ added: all });
  });

  test("holds no passwords and no sessions", async () => {
    const store = await stores.open();
    await store.setPasswordHash("owner", "$scrypt$neverInAnArchive");
    await store.addSession("c0ffee".repeat(10), { role: "owner", beganAt: "2026-01-01", expiresAt: "2027-01-01" });
    const bytes = Buffer.concat([...(await membersOf(await exported(store))).values()]);
    expect(bytes.includes("neverInAnArchive")).toBe(false);
    expect(bytes.includes("c0ffee")).toBe(false);
  });

  test("of an empty store is an archive, too", async () => {
    const archive = await exported(await stores.open());
    expect(await bringIn(await stores.open(), archive)).toMatchObject({ outcome: "taken in", added: none });
  });

  test("can be unpacked and packed again with a folder around it, and with a system's own files in it", async () => {
    const store = await stores.open();
    await fill(store);
    const members = await membersOf(await exported(store));
    const again = await packed([
      ["records/.DS_Store", Buffer.from("x")],
      ...[...members].reverse().map(([path, bytes]) => [`records/${path}`, bytes] as const),
    ]);
    const other = await stores.open();
    expect(await bringIn(other, again)).toMatchObject({ added: all, refused: none });
    expect((await exported(other)).equals(await exported(store))).toBe(true);
  });
});
