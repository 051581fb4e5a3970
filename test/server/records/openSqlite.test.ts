/** SQLite: opened safely or not at all, patient where another program holds the lock, and told in words what is wrong with the file. */
import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";

import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { DatabaseSync } from "@photostructure/sqlite";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { openStore } from "../../../server/records/openStore.ts";
import { StoreUnavailable, StoreUnusable } from "../../../server/records/store.ts";
import { instrumentGiven, newVisit, outlookOf } from "../../support/recordsForTests.ts";
import { storesForTests } from "../../support/storesForTests.ts";

describe("a store in a folder", () => {
  const stores = storesForTests("SQLite");
  let folder: string;
  let path: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), "boardtrue-records-"));
    path = join(folder, "records.sqlite");
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  test("makes the folder and its file, for its owner's eyes only", async () => {
    const deep = join(folder, "a", "b");
    await stores.open({ where: { folder: deep } });
    for (const name of readdirSync(deep)) expect([name, statSync(join(deep, name)).mode & 0o077]).toEqual([name, 0]);
    expect(readdirSync(deep)).toContain("records.sqlite");
  });

  test("keeps a write-ahead log, and each commit comes onto the disk", async () => {
    const store = await stores.open({ where: { folder } });
    await store.addInstrument(instrumentGiven("C-07"));
    expect(statSync(`${path}-wal`).size).toBeGreaterThan(0);
    const sqlite = new DatabaseSync(path);
    expect(sqlite.prepare("pragma journal_mode").get()).toEqual({ journal_mode: "wal" });
    sqlite.close();
  });

  test("is refused in words where its folder is a file", async () => {
    writeFileSync(join(folder, "taken"), "");
    await expect(openStore({ folder: join(folder, "taken") }, { version: "test" })).rejects.toThrow(StoreUnusable);
    await expect(openStore({ folder: join(folder, "taken", "deeper") }, { version: "test" })).rejects.toThrow(
      "BOARDTRUE_DATA",
    );
  });

  test("is whole in its one file once it is closed: a copy of that file alone holds everything", async () => {
    const store = await openStore({ folder }, { version: "test" });
    await store.addInstrument(instrumentGiven("C-07"));
    await store.keepVisit("C-07", newVisit("2026-11-24", ""), outlookOf);
    await store.close();
    const elsewhere = join(folder, "copied");
    mkdirSync(elsewhere);
    copyFileSync(path, join(elsewhere, "records.sqlite"));
    const copy = await stores.open({ where: { folder: elsewhere } });
    expect((await copy.instrument("C-07"))?.visits).toBe(1);
    expect(await copy.check()).toEqual([]);
  });

  test("is never taken for sound, and never fails without words, whichever of its pages is spoilt", async () => {
    const store = await openStore({ folder }, { version: "test" });
    await store.addInstrument(instrumentGiven("C-07"));
    await store.keepVisit("C-07", newVisit("2026-11-24", ""), outlookOf);
    await store.close();
    const sound = readFileSync(path);
    const pageBytes = sound.readUInt16BE(16);
    const told: string[] = [];
    for (let page = 2; page <= sound.length / pageBytes; page++) {
      const from = (page - 1) * pageBytes;
      const spoilt = Buffer.from(sound);
      spoilt.fill(0xa5, from, from + pageBytes);
      writeFileSync(path, spoilt);
      for (const log of ["-wal", "-shm"]) rmSync(`${path}${log}`, { force: true });
      told.push(await whatIsToldOf(folder));
    }
    expect(told.length).toBeGreaterThan(20);
    expect(told.filter((words) => words !== "damaged")).toEqual([]);
  });

  test("is told as damaged where its file is none of SQLite's", async () => {
    writeFileSync(path, "This was never a store. ".repeat(100));
    await expect(openStore({ folder }, { version: "test" })).rejects.toMatchObject({ trouble: "damaged" });
  });

  describe("whose lock another program holds", () => {
    async function locked() {
      const store = await stores.open({ where: { folder } });
      const other = new DatabaseSync(path);
      other.exec("begin immediate");
      return { store, other };
    }

    test("is waited for, while whoever only reads is served", async () => {
      const { store, other } = await locked();
      const adding = store.addInstrument(instrumentGiven("C-07"));
      const startMs = performance.now();
      let beats = 0;
      const heart = setInterval(() => beats++, 10);
      await wait(600);
      other.exec("rollback");
      expect((await adding).outcome).toBe("added");
      clearInterval(heart);
      const tookMs = performance.now() - startMs;
      other.close();
      // The process goes on meanwhile: of some 60 beats a third at least, on a machine that does other things too.
      expect(beats).toBeGreaterThan(20);
      expect(tookMs).toBeLessThan(5000);
    });

    test("is told as locked after ten seconds, all who waited together, and nothing of it was kept", {
      timeout: 40_000,
    }, async () => {
      const { store, other } = await locked();
      const startMs = performance.now();
      const answers = await Promise.allSettled(
        Array.from({ length: 20 }, (_, i) => store.addInstrument(instrumentGiven(`C-${i}`))),
      );
      const tookMs = performance.now() - startMs;
      other.exec("rollback");
      other.close();
      for (const answer of answers) {
        expect(answer).toMatchObject({ status: "rejected", reason: expect.any(StoreUnavailable) });
        expect(answer).toMatchObject({ reason: { trouble: "locked" } });
      }
      // Ten seconds of patience, and 20 ms more for each that waited behind.
      expect(tookMs).toBeGreaterThan(9_900);
      expect(tookMs).toBeLessThan(15_000);
      expect((await store.findInstruments("", { after: null, limit: 50 })).entries).toEqual([]);
      expect((await store.addInstrument(instrumentGiven("C-1"))).outcome).toBe("added");
    });
  });

  test("that was a link to another disk stays there", async () => {
    const elsewhere = join(folder, "elsewhere");
    mkdirSync(elsewhere);
    symlinkSync(elsewhere, join(folder, "link"));
    await stores.open({ where: { folder: join(folder, "link") } });
    expect(readdirSync(elsewhere)).toContain("records.sqlite");
  });
});

describe("a store in memory", () => {
  test("is gone when it is closed", async () => {
    const store = await openStore({ memory: true }, { version: "test" });
    await store.addInstrument(instrumentGiven("C-07"));
    expect(await store.check()).toEqual([]);
    await store.close();
    const next = await openStore({ memory: true }, { version: "test" });
    expect(await next.instrument("C-07")).toBeNull();
    await next.close();
  });
});

/** "damaged" where opening or checking says so in the store's own words; else what happened instead. */
async function whatIsToldOf(folder: string): Promise<string> {
  try {
    const store = await openStore({ folder }, { version: "test" });
    try {
      return (await store.check()).length > 0 ? "damaged" : "taken for sound";
    } finally {
      await store.close();
    }
  } catch (error) {
    return error instanceof StoreUnavailable ? error.trouble : `failed: ${error}`;
  }
}
