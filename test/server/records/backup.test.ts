/** A copy of the records: whole, while others write, never by halves, never over another file. */
import {
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { instrumentGiven, newVisit, outlookOf } from "../../support/recordsForTests.ts";
import { storesForTests } from "../../support/storesForTests.ts";

describe("a copy of the records", () => {
  const stores = storesForTests("SQLite");
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), "boardtrue-copies-"));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  async function filled() {
    const where = await stores.newPlace();
    const store = await stores.open({ where });
    for (let i = 0; i < 10; i++) {
      await store.addInstrument(instrumentGiven(`C-${i}`));
      await store.keepVisit(`C-${i}`, newVisit("2026-11-24", `${i}`), outlookOf);
    }
    return { where, store };
  }

  test("opens as a store and holds everything, for its owner's eyes only", async () => {
    const { store } = await filled();
    const path = join(folder, "records.sqlite");
    await store.backup(path);
    expect(readdirSync(folder)).toEqual(["records.sqlite"]);
    expect(statSync(path).mode & 0o077).toBe(0);
    const copy = await stores.open({ where: { folder } });
    expect(await copy.check()).toEqual([]);
    for (let i = 0; i < 10; i++)
      expect(await copy.visits(`C-${i}`, { after: null, limit: 5 })).toEqual(
        await store.visits(`C-${i}`, { after: null, limit: 5 }),
      );
  });

  test("made while another program writes is of one moment, and every visit acknowledged before it is in it", async () => {
    const { where, store } = await filled();
    const writer = await stores.open({ where });
    let acknowledged = 0;
    let isOver = false;
    const writing = (async () => {
      while (!isOver) {
        const day = new Date(Date.UTC(2020, 0, acknowledged + 1)).toISOString().slice(0, 10);
        await writer.keepVisit("C-0", newVisit(day, ""), outlookOf);
        acknowledged++;
      }
    })();
    while (acknowledged < 3) await new Promise((resolve) => setTimeout(resolve, 1));
    const before = acknowledged;
    await store.backup(join(folder, "records.sqlite"));
    isOver = true;
    await writing;
    const copy = await stores.open({ where: { folder } });
    const visits = (await copy.historyVisits("C-0")).length - 1;
    expect(visits).toBeGreaterThanOrEqual(before);
    expect(await copy.check()).toEqual([]);
  });

  test("does not overwrite a file", async () => {
    const { store } = await filled();
    const path = join(folder, "there");
    writeFileSync(path, "mine");
    await expect(store.backup(path)).rejects.toThrow("there already");
    expect(readFileSync(path, "utf8")).toBe("mine");
    expect(readdirSync(folder)).toEqual(["there"]);
  });

  test("that can't be made leaves nothing", async () => {
    const { store } = await filled();
    await expect(store.backup(join(folder, "no such folder", "copy"))).rejects.toThrow();
    expect(readdirSync(folder)).toEqual([]);
    expect(existsSync(join(folder, "no such folder"))).toBe(false);
  });

  test("holds nothing of what was erased before it", async () => {
    const { store } = await filled();
    const [visit] = (await store.visits("C-1", { after: null, limit: 1 })).entries;
    await store.setPlayerNotes(visit.id, null, { hand: "", notes: "Zwergfellatmung" });
    await store.backup(join(folder, "with"));
    expect(readFileSync(join(folder, "with")).includes("Zwergfellatmung")).toBe(true);
    await store.erasePlayerNotes({ visitId: visit.id });
    await store.backup(join(folder, "without"));
    expect(readFileSync(join(folder, "without")).includes("Zwergfellatmung")).toBe(false);
  });

  test("takes the place of the records it was made of", async () => {
    const { where, store } = await filled();
    if (!("folder" in where)) throw new Error("in a folder");
    await store.backup(join(folder, "copy"));
    await store.close();
    rmSync(join(where.folder, "records.sqlite"));
    renameSync(join(folder, "copy"), join(where.folder, "records.sqlite"));
    const again = await stores.open({ where });
    expect((await again.findInstruments("", { after: null, limit: 50 })).entries).toHaveLength(10);
    expect(await again.check()).toEqual([]);
  });
});
