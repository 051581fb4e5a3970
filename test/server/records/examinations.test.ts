/** Examinations: each kept beside those before it, rounded where it is for drawing only, small on disk. */
import { gunzipSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import { packExamination, unpackExamination } from "../../../server/records/keptExamination.ts";
import { celloExamined, findings, instrumentGiven, newVisit, outlookOf } from "../../support/recordsForTests.ts";
import { askDatabase, describeOnBothStores } from "../../support/storesForTests.ts";

const nobody = "00000000-0000-4000-8000-000000000000";

describe("an examination that is kept", () => {
  test("keeps every digit of what an answer rests on", async () => {
    const { points, maps, profiles, sections, ...answer } = celloExamined();
    expect(await unpackExamination(await packExamination(celloExamined()))).toMatchObject(answer);
    expect([points.length, profiles.length, sections.length, maps?.xMm.length].every((count) => (count ?? 0) > 0)).toBe(
      true,
    );
  });

  test("keeps what is for drawing to 0.0001 mm, neither more nor less", async () => {
    const given = celloExamined();
    const kept = await unpackExamination(await packExamination(given));
    const numbers = [kept, given].map(({ points, maps, profiles, sections }) =>
      numbersIn([points, maps, profiles, sections]),
    );
    expect(numbers[0].length).toBe(numbers[1].length);
    const offMm = numbers[0].map((mm, i) => Math.abs(mm - numbers[1][i]));
    // Half of the last digit, and the rounding of doubles of some hundred mm.
    expect(Math.max(...offMm)).toBeLessThan(0.00005 + 1e-12);
    expect(Math.max(...offMm)).toBeGreaterThan(0.00004);
  });

  test("with nothing where nothing is", async () => {
    const given = { ...celloExamined(), maps: null, planing: null };
    expect(await unpackExamination(await packExamination(given))).toMatchObject({ maps: null, planing: null });
  });

  test("is told from bytes that are none", async () => {
    const packed = await packExamination(celloExamined());
    await expect(unpackExamination(packed.subarray(0, packed.length / 2))).rejects.toThrow();
    await expect(unpackExamination(new Uint8Array([1, 2, 3]))).rejects.toThrow();
  });

  test("is small: a tenth of its text, 20 kB at most for a survey of a hundred readings", async () => {
    const packed = await packExamination(celloExamined());
    expect(packed.length).toBeLessThan(JSON.stringify(celloExamined()).length / 5);
    expect(packed.length).toBeLessThan(40_000);
    expect(gunzipSync(packed).length).toBeGreaterThan(packed.length);
  });
});

function numbersIn(part: unknown): number[] {
  if (typeof part === "number") return [part];
  return part === null || typeof part !== "object" ? [] : Object.values(part).flatMap(numbersIn);
}

describeOnBothStores("an examination made again", (stores) => {
  async function withVisit(where = stores.newPlace()) {
    const store = await stores.open({ where: await where, now: () => new Date("2026-11-25T09:30:00Z") });
    await store.addInstrument(instrumentGiven("C-07"));
    const answer = await store.keepVisit("C-07", newVisit("2026-11-24", ""), outlookOf);
    if (answer.outcome !== "kept") throw new Error(answer.outcome);
    return { store, id: answer.visit.id };
  }
  const byVersion = (version: string, depthMm: number) => ({
    examination: { ...celloExamined(), version },
    findings: findings(depthMm),
  });

  test("stands beside the first; visit and history tell the latest", async () => {
    const { store, id } = await withVisit();
    const added = await store.addExamination(id, byVersion("2.0", 0.25), outlookOf);
    expect(added).toMatchObject({
      ordinal: 2,
      version: "2.0",
      examinedAt: "2026-11-25T09:30:00.000Z",
      findings: findings(0.25),
    });
    expect(await store.examination(id)).toEqual(added);
    expect(await store.examination(id, 2)).toEqual(added);
    expect(await store.examination(id, 1)).toMatchObject({ ordinal: 1, version: "test", findings: findings(0.2) });
    expect(await store.visit("C-07", id)).toMatchObject({ version: "2.0", findings: findings(0.25), revision: 1 });
    expect(await store.historyVisits("C-07")).toMatchObject([{ findings: findings(0.25) }]);
    expect(await store.check()).toEqual([]);
  });

  test("is listed in order, page by page", async () => {
    const { store, id } = await withVisit();
    for (const version of ["2", "3", "4"]) await store.addExamination(id, byVersion(version, 0.2), outlookOf);
    const paged = [];
    for (let after: string | null = null; ; ) {
      const page = await store.examinations(id, { after, limit: 3 });
      paged.push(...page.entries.map(({ ordinal, version }) => [ordinal, version]));
      if (page.next === null) break;
      after = page.next;
    }
    expect(paged).toEqual([
      [1, "test"],
      [2, "2"],
      [3, "3"],
      [4, "4"],
    ]);
  });

  test("by two servers at the same moment makes two", async () => {
    const where = await stores.newPlace();
    const { store, id } = await withVisit(Promise.resolve(where));
    const other = await stores.open({ where });
    const made = await Promise.all(
      [store, other, store, other].map((one) => one.addExamination(id, byVersion("2", 0.3), outlookOf)),
    );
    expect(made.map((one) => one?.ordinal).toSorted()).toEqual([2, 3, 4, 5]);
  });

  test("of no visit is none", async () => {
    const { store, id } = await withVisit();
    expect(await store.addExamination(nobody, byVersion("2", 0.2), outlookOf)).toBeNull();
    expect(await store.examination(nobody)).toBeNull();
    expect(await store.examination(id, 2)).toBeNull();
    expect((await store.examinations(nobody, { after: null, limit: 5 })).entries).toEqual([]);
  });

  test("reads as damaged, and nothing else with it, where its bytes were harmed", async () => {
    const where = await stores.newPlace();
    const { store, id } = await withVisit(Promise.resolve(where));
    const [off, on] =
      stores.kind === "SQLite"
        ? ["drop trigger examinations_keep_from_update", "select 1"]
        : ["alter table examinations disable trigger all", "alter table examinations enable trigger all"];
    await askDatabase(where, off);
    await askDatabase(where, `update examinations set packed = ${stores.kind === "SQLite" ? "x'0102'" : "'\\x0102'"}`);
    await askDatabase(where, on);
    await expect(store.examination(id)).rejects.toMatchObject({ trouble: "damaged" });
    expect(await store.check()).toEqual(["Examination 1 of C-07's visit of 2026-11-24 can't be read."]);
    expect(await store.visit("C-07", id)).toMatchObject({ findings: findings(0.2) });
  });
});
