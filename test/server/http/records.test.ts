/**
 * The records over HTTP, with the real examination and a real store: an instrument, two visits with a dressing between, its story, what is due. Every
 * answer is held against the description of the wire: a field more or less would show.
 */
import { createHash } from "node:crypto";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { z } from "zod";
import { examinerFor } from "../../../server/examiner.ts";
import { betweenSchema } from "../../../server/http/wire/between.ts";
import { instrumentSchema, instrumentsSchema } from "../../../server/http/wire/instruments.ts";
import { problemSchema } from "../../../server/http/wire/problem.ts";
import { dueSchema, storySchema } from "../../../server/http/wire/story.ts";
import {
  examinationKeptSchema,
  examinationsSchema,
  examinedAgainSchema,
  playerSchema,
  visitSchema,
  visitsSchema,
} from "../../../server/http/wire/visits.ts";
import { loadInstrumentTable } from "../../../server/instrumentTable.ts";
import { openStore } from "../../../server/records/openStore.ts";
import { type Store, StoreUnavailable } from "../../../server/records/store.ts";
import { type ServerUnderTest, startServer } from "./serverUnderTest.ts";

const example = (name: string) => readFileSync(new URL(`../../../data/examples/${name}`, import.meta.url));
const readings = example("cello-to-dress.csv");

let server: ServerUnderTest;
beforeAll(async () => {
  server = await startServer({ startExamining: examinerFor(loadInstrumentTable(), "0.0.0-test") });
});
afterAll(() => server.stop());

async function asked(path: string, init: RequestInit = {}) {
  const response = await fetch(new URL(path, server.url), init);
  return { response, status: response.status, body: (await response.json()) as Record<string, never> };
}

function exactly(schema: z.ZodType, body: unknown): void {
  expect(schema.parse(body)).toEqual(body);
}

const asJson = (method: string, body: object, revision?: number): RequestInit => ({
  method,
  headers: {
    "content-type": "application/json",
    ...(revision === undefined ? {} : { "if-match": `"${revision}"` }),
  },
  body: JSON.stringify(body),
});

function visitForm(date: string, more: Readonly<Record<string, string>> = {}): RequestInit {
  const form = new FormData();
  form.append("readings", new Blob([readings]), "anything.csv");
  form.append("thickness", new Blob([example("cello-to-dress.thickness.csv")]), "thickness.csv");
  form.append("date", date);
  for (const [name, text] of Object.entries(more)) form.append(name, text);
  return { method: "POST", body: form };
}

test("an instrument is added once, found as one types, and changed by whoever saw it last", async () => {
  const added = await asked("/api/instruments", asJson("POST", { number: "C-07", kind: "cello" }));
  expect(added.status).toBe(201);
  expect(added.response.headers.get("location")).toBe("/api/instruments/C-07");
  exactly(instrumentSchema, added.body);
  const again = await asked("/api/instruments", asJson("POST", { number: "c-07", kind: "violin" }));
  expect(again.status).toBe(409);
  exactly(problemSchema, again.body);

  const found = await asked("/api/instruments?find=c07");
  exactly(instrumentsSchema, found.body);
  expect(found.body.instruments).toHaveLength(1);

  const address = "/api/instruments/C-07";
  expect((await asked(address, asJson("PATCH", { label: "shelf 3" }))).status).toBe(428);
  const changed = await asked(address, asJson("PATCH", { label: "shelf 3" }, 1));
  expect([changed.status, changed.body.label, changed.body.revision]).toEqual([200, "shelf 3", 2]);
  const late = await asked(address, asJson("PATCH", { label: "shelf 4" }, 1));
  expect([late.status, (late.body.now as { label: string }).label]).toEqual([412, "shelf 3"]);
});

test("a visit is kept whole, recognised when it comes again, and its readings come back byte for byte", async () => {
  const kept = await asked("/api/instruments/C-07/visits", visitForm("2024-03-04", { work_done: "dressed" }));
  expect(kept.status).toBe(201);
  exactly(visitSchema, kept.body);
  const address = kept.response.headers.get("location") ?? "";
  const got = await asked(address);
  exactly(visitSchema, got.body);
  expect((got.body.examination as { verdict: { decision: string } }).verdict.decision).toBe("dress");

  const twice = await asked("/api/instruments/C-07/visits", visitForm("2024-03-04", { work_done: "dressed" }));
  expect([twice.status, twice.response.headers.get("location")]).toEqual([200, address]);
  const elsewhen = await asked("/api/instruments/C-07/visits", visitForm("2025-03-04", { same: "ask" }));
  expect([elsewhen.status, (elsewhen.body.alreadyKept as unknown[]).length]).toEqual([409, 1]);

  const given = await fetch(new URL(`${address}/readings.csv`, server.url));
  const hash = createHash("sha256")
    .update(Buffer.from(await given.arrayBuffer()))
    .digest("hex");
  expect(hash).toBe(createHash("sha256").update(readings).digest("hex"));
});

test("what is written down of a visit changes by revision; it is examined again beside what stands", async () => {
  const { body } = await asked("/api/instruments/C-07/visits");
  exactly(visitsSchema, body);
  const { href } = (body.visits as { href: string }[])[0]!;
  expect((await asked(href, asJson("PATCH", { reason: "buzzes" }, 9))).status).toBe(412);
  const changed = await asked(href, asJson("PATCH", { reason: "buzzes" }, 1));
  expect([changed.status, changed.body.reason]).toEqual([200, "buzzes"]);

  const again = await asked(`${href}/examinations`, { method: "POST" });
  expect(again.status).toBe(201);
  exactly(examinedAgainSchema, again.body);
  expect(again.body.changes).toEqual([]);
  const all = await asked(`${href}/examinations`);
  exactly(examinationsSchema, all.body);
  expect(all.body.examinations).toHaveLength(2);
  exactly(examinationKeptSchema, (await asked(`${href}/examinations/2`)).body);
});

test("what concerns a person is apart, and is erased alone", async () => {
  const { href } = ((await asked("/api/instruments/C-07/visits")).body.visits as { href: string }[])[0]!;
  exactly(playerSchema, (await asked(`${href}/player`)).body);
  const written = await asked(`${href}/player`, asJson("PUT", { hand: "small", notes: "presses hard" }));
  exactly(playerSchema, written.body);
  expect((await asked("/api/instruments/C-07/players", { method: "DELETE" })).body).toEqual({ erased: 1 });
  expect((await asked(`${href}/player`)).body).toEqual({ hand: "", notes: "", revision: null });
});

test("story, wear between visits and the due list are as described; a page of one leads to the next", async () => {
  await asked("/api/instruments", asJson("POST", { number: "C-08", kind: "cello", size: "3/4" }));
  const later = await asked("/api/instruments/C-07/visits", visitForm("2026-03-04"));
  exactly(storySchema, (await asked("/api/instruments/C-07/story")).body);
  const since = await asked(`${later.response.headers.get("location")}/since`);
  exactly(betweenSchema, since.body);
  expect(since.body).toMatchObject({ told: "not comparable", why: expect.stringContaining("worked on") });
  const first = await asked("/api/due?limit=1");
  exactly(dueSchema, first.body);
  const second = await asked(first.body.next);
  const numbers = [first, second].flatMap(({ body }) => (body.due as { number: string }[]).map(({ number }) => number));
  expect(numbers.sort()).toEqual(["C-07", "C-08"]);
  const history = await fetch(new URL("/api/instruments/C-07/history.csv", server.url));
  expect((await history.text()).trim().split("\r\n")).toHaveLength(3);
});

test("nothing is kept of a visit with a fault, and what is not there is told", async () => {
  const faulty = await asked("/api/instruments/C-07/visits", visitForm("2026-02-30"));
  expect([faulty.status, (faulty.body.faults as { where: string }[])[0]?.where]).toEqual([422, "visit"]);
  exactly(problemSchema, faulty.body);
  expect((await asked("/api/instruments/C-07/visits")).body.visits).toHaveLength(2);
  expect((await asked("/api/instruments/X-1/story")).status).toBe(404);
  expect((await asked("/api/instruments/C-07/visits/nothing")).status).toBe(404);
  expect((await asked("/api/due?limit=0")).status).toBe(400);
});

test("whoever watches over the server is told when the records can't be had", async () => {
  const store = await openStore({ memory: true }, { version: "0.0.0-test" });
  const other = await startServer({ store });
  try {
    expect((await fetch(`${other.url}/api/health`)).status).toBe(200);
    await store.close();
    const gone: Pick<Store, "ping"> = { ping: () => Promise.reject(new StoreUnavailable("unreachable")) };
    Object.assign(store, gone);
    const response = await fetch(`${other.url}/api/health`);
    const body = await response.json();
    exactly(problemSchema, body);
    expect([response.status, body.type]).toEqual([503, "urn:boardtrue:problem:store-unavailable"]);
  } finally {
    await other.stop();
  }
});

test("an address that means nothing is a page for a person and a problem for a program", async () => {
  const webFolder = mkdtempSync(join(tmpdir(), "page-"));
  writeFileSync(join(webFolder, "index.html"), "<!doctype html><title>the page</title>");
  const other = await startServer({ webFolder });
  try {
    const asked = (path: string, accept: string) => fetch(`${other.url}${path}`, { headers: { accept } });
    const person = await asked("/instrumnets", "text/html,application/xhtml+xml");
    expect([person.status, await person.text()]).toEqual([404, expect.stringContaining("the page")]);
    for (const [path, accept] of [
      ["/instrumnets", "application/json"],
      ["/api/nothing", "text/html"],
      ["/invented/api/nothing", "text/html"],
      ["/assets/none.js", "text/html"],
    ] as const) {
      const refused = await asked(path, accept);
      expect([path, refused.status, refused.headers.get("content-type")]).toEqual([
        path,
        404,
        expect.stringContaining("application/problem+json"),
      ]);
    }
  } finally {
    await other.stop();
    rmSync(webFolder, { recursive: true });
  }
});
