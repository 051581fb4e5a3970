/** PostgreSQL: gone and back without the program noticing more than a refusal; mistakes in its address told in words. */
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openStore } from "../../../server/records/openStore.ts";
import { StoreUnavailable, StoreUnusable } from "../../../server/records/store.ts";
import { instrumentGiven, newVisit, outlookOf } from "../../support/recordsForTests.ts";
import { type RunningPostgres, startPostgres } from "../../support/startPostgres.ts";
import { askDatabase, freshPostgres, storesForTests } from "../../support/storesForTests.ts";

const opened = { version: "test" };

describe("a PostgreSQL server that goes away and comes back", () => {
  const stores = storesForTests("PostgreSQL");
  let postgres: RunningPostgres;
  beforeAll(async () => {
    postgres = await startPostgres();
  }, 60_000);
  afterAll(() => postgres.stop());

  test("is told as unreachable meanwhile, at once, and the next call after that works", {
    timeout: 60_000,
  }, async () => {
    const where = { databaseUrl: await postgres.freshDatabase() };
    const store = await stores.open({ where });
    await store.addInstrument(instrumentGiven("C-07"));
    await store.keepVisit("C-07", newVisit("2026-11-24", ""), outlookOf);
    await postgres.goAway();

    const startMs = performance.now();
    const refused = await Promise.allSettled([
      store.ping(),
      store.instrument("C-07"),
      store.keepVisit("C-07", newVisit("2026-11-25", ""), outlookOf),
      store.changeInstrument("C-07", 1, { label: "x" }),
    ]);
    // A refused connection on this machine is told at once; ten seconds would be the wait for one that is not.
    expect(performance.now() - startMs).toBeLessThan(5_000);
    for (const one of refused) expect(one).toMatchObject({ status: "rejected", reason: { trouble: "unreachable" } });
    await expect(openStore(where, opened)).rejects.toThrow(StoreUnavailable);

    await postgres.comeBack();
    await store.ping();
    expect(await store.instrument("C-07")).toMatchObject({ visits: 1, revision: 1 });
    expect((await store.keepVisit("C-07", newVisit("2026-11-25", ""), outlookOf)).outcome).toBe("kept");
    expect(await store.check()).toEqual([]);
  });

  test("in the midst of calls loses none that was acknowledged, and keeps none by halves", {
    timeout: 60_000,
  }, async () => {
    const where = { databaseUrl: await postgres.freshDatabase() };
    const store = await stores.open({ where });
    await store.addInstrument(instrumentGiven("C-07"));
    const days = Array.from({ length: 200 }, (_, i) => new Date(Date.UTC(2020, 0, i + 1)).toISOString().slice(0, 10));
    const answers = Promise.allSettled(days.map((day) => store.keepVisit("C-07", newVisit(day, ""), outlookOf)));
    while (((await store.instrument("C-07").catch(() => null))?.visits ?? 10) < 10);
    await postgres.goAway();
    const settled = await answers;
    await postgres.comeBack();
    const there = new Set((await store.historyVisits("C-07")).map(({ date }) => date));
    const acknowledged = days.filter((_, i) => settled[i].status === "fulfilled");
    expect(acknowledged.length).toBeGreaterThan(0);
    expect(acknowledged.filter((day) => !there.has(day))).toEqual([]);
    for (const one of settled) if (one.status === "rejected") expect(one.reason).toBeInstanceOf(StoreUnavailable);
    expect(await store.check()).toEqual([]);
  });
});

describe("a PostgreSQL database", () => {
  const stores = storesForTests("PostgreSQL");

  test("that ends our connections, even in the midst of a transaction, is reached again by the next call", async () => {
    const where = await stores.newPlace();
    const store = await stores.open({ where });
    await store.addInstrument(instrumentGiven("C-07"));
    const cut =
      "select pg_terminate_backend(pid) from pg_stat_activity where application_name = 'boardtrue' and datname = current_database()";
    await askDatabase(where, cut);
    expect(await store.instrument("C-07")).not.toBeNull();
    let isCut: Promise<unknown> | null = null;
    const keeping = store.keepVisit("C-07", newVisit("2026-11-24", ""), (visits) => {
      isCut = askDatabase(where, cut);
      return outlookOf(visits);
    });
    await keeping.catch((error: unknown) => expect(error).toMatchObject({ trouble: "unreachable" }));
    await isCut;
    expect((await store.keepVisit("C-07", newVisit("2026-11-24", ""), outlookOf)).outcome).toMatch(
      /kept|there already/,
    );
    expect(await store.check()).toEqual([]);
  });

  test("that may only be read is told as read-only", async () => {
    const where = await stores.newPlace();
    const store = await stores.open({ where });
    await askDatabase(
      where,
      "do $$ begin execute format('alter database %I set default_transaction_read_only = on', current_database()); end $$",
    );
    await askDatabase(
      where,
      "select pg_terminate_backend(pid) from pg_stat_activity where application_name = 'boardtrue' and datname = current_database()",
    );
    await expect(store.ping()).rejects.toMatchObject({ trouble: "read-only" });
    await expect(store.addInstrument(instrumentGiven("C-07"))).rejects.toMatchObject({ trouble: "read-only" });
    expect(await store.instrument("C-07")).toBeNull();
  });

  test("whose address is wrong is told in words, with what to do", async () => {
    const url = await freshPostgres();
    for (const wrong of [
      url.replace("for-tests-only", "wrong"),
      url.replace(/records\d+$/, "nowhere"),
      url.replace("postgres:for", "nobody:for"),
    ]) {
      await expect(openStore({ databaseUrl: wrong }, opened)).rejects.toThrow(StoreUnusable);
      await expect(openStore({ databaseUrl: wrong }, opened)).rejects.toThrow("DATABASE_URL");
    }
    await expect(openStore({ databaseUrl: "postgres://127.0.0.1:1/x" }, opened)).rejects.toMatchObject({
      trouble: "unreachable",
    });
  });

  test("is not copied by us: it has its own tools", async () => {
    await expect((await stores.open()).backup("anywhere")).rejects.toThrow("pg_dump");
  });
});
