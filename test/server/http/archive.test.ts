/** All records out over HTTP, and into another server: the same archive as the command's, told exactly as the wire describes it. */
import { request as httpRequest } from "node:http";
import { expect, onTestFinished, test } from "vitest";
import type { AppParts } from "../../../server/http/app.ts";
import { importedSchema } from "../../../server/http/wire/archive.ts";
import { problemSchema } from "../../../server/http/wire/problem.ts";
import type { Store } from "../../../server/records/store.ts";
import { exported, membersOf, packed } from "../../support/archives.ts";
import { instrumentGiven, newVisit, outlookOf } from "../../support/recordsForTests.ts";
import { describeOnBothStores, storesForTests } from "../../support/storesForTests.ts";
import { startServer } from "./serverUnderTest.ts";

async function served(parts: Partial<AppParts>): Promise<{ readonly url: string; readonly log: readonly string[] }> {
  const server = await startServer(parts);
  onTestFinished(() => server.stop());
  return server;
}

async function withCello(store: Store): Promise<Store> {
  await store.addInstrument(instrumentGiven("C-07"));
  for (const date of ["2024-05-06", "2026-05-04"]) {
    await store.keepVisit("C-07", newVisit(date, date, { player: { hand: "left", notes: "" } }), outlookOf);
  }
  return store;
}

const post = (url: string, body: Uint8Array | string, type = "application/zip") =>
  fetch(`${url}/api/archive`, { method: "POST", headers: { "content-type": type }, body: Buffer.from(body) });

describeOnBothStores("the archive of a server's records", (stores) => {
  test("comes as a ZIP, goes into another server once, and is told there", async () => {
    const store = await withCello(await stores.open());
    const { url } = await served({ store });
    const response = await fetch(`${url}/api/archive`);
    expect(response.status).toBe(200);
    expect(response.headers.get("content-type")).toBe("application/zip");
    expect(response.headers.get("content-disposition")).toBe("attachment; filename=boardtrue-records.zip");
    expect(response.headers.get("cache-control")).toBe("no-store");
    const archive = Buffer.from(await response.arrayBuffer());
    expect(archive.equals(await exported(store))).toBe(true);

    const other = await stores.open();
    const there = await served({ store: other });
    const added = await post(there.url, archive);
    expect(added.status).toBe(200);
    const body = await added.json();
    expect(importedSchema.parse(body)).toEqual(body);
    const none = { instruments: 0, visits: 0 };
    expect(body).toEqual({ added: { instruments: 1, visits: 2 }, alreadyThere: none, refused: none, remarks: [] });
    expect((await exported(other)).equals(archive)).toBe(true);
    expect(await (await post(there.url, archive)).json()).toMatchObject({
      alreadyThere: { instruments: 1, visits: 2 },
    });
  });

  test("names what was refused, and why", async () => {
    const archive = await exported(await withCello(await stores.open()));
    const store = await stores.open();
    await store.addInstrument(instrumentGiven("C-07"));
    const body = await (await post((await served({ store })).url, archive)).json();
    expect(importedSchema.parse(body)).toEqual(body);
    expect(body).toMatchObject({
      refused: { instruments: 1, visits: 2 },
      remarks: [
        { instrument: "C-07", visit: null, outcome: "refused", says: expect.stringMatching(/another instrument/) },
      ],
    });
  });
});

const stores = storesForTests("SQLite");

test("what is no archive is refused in words, and nothing goes in", async () => {
  const store = await stores.open();
  const { url } = await served({ store });
  for (const [body, type, status, kind] of [
    ["x,y,height\n", "text/csv", 415, "not-a-zip"],
    ["x,y,height\n", "application/zip", 422, "not-an-archive"],
    ["", "application/zip", 422, "not-an-archive"],
    [await packed([["../out.txt", Buffer.from("x")]]), "application/zip", 422, "not-an-archive"],
  ] as const) {
    const response = await post(url, body, type);
    expect([response.status, response.headers.get("content-type")]).toEqual([
      status,
      expect.stringMatching(/^application\/problem\+json/),
    ]);
    const problem = await response.json();
    expect(problemSchema.parse(problem)).toEqual(problem);
    expect(problem).toMatchObject({ type: `urn:boardtrue:problem:${kind}` });
  }
  expect((await store.findInstruments("", { after: null, limit: 1 })).entries).toEqual([]);
});

test("an archive that says it is larger than may be is refused before it is sent", async () => {
  const { url } = await served({ store: await stores.open() });
  const status = await new Promise((resolve, reject) => {
    const headers = { "content-type": "application/zip", "content-length": 2 ** 40 };
    const asking = httpRequest(`${url}/api/archive`, { method: "POST", headers }, (answer) => {
      resolve(answer.statusCode);
      asking.destroy();
    });
    asking.on("error", reject);
    asking.write("PK");
  });
  expect(status).toBe(413);
});

test("a client that leaves while it sends an archive is no failure, and nothing of it stays", async () => {
  const store = await stores.open();
  const { url, log } = await served({ store });
  const archive = await exported(await withCello(await stores.open()));
  await new Promise<void>((resolve) => {
    const headers = { "content-type": "application/zip", "content-length": archive.length };
    const asking = httpRequest(`${url}/api/archive`, { method: "POST", headers });
    asking.on("error", () => resolve());
    asking.write(archive.subarray(0, archive.length / 2), () => setTimeout(() => asking.destroy(), 50));
    asking.on("close", () => resolve());
  });
  // The server goes on, and said nothing of a failure.
  expect((await fetch(`${url}/api/health`)).status).toBe(200);
  expect(log.filter((line) => JSON.parse(line).level >= 50)).toEqual([]);
  expect((await store.findInstruments("", { after: null, limit: 1 })).entries).toEqual([]);
});

test("the invented store gives an archive, but takes none", async () => {
  const { url } = await served({ invented: await withCello(await stores.open()), store: await stores.open() });
  const response = await fetch(`${url}/invented/api/archive`);
  const members = await membersOf(Buffer.from(await response.arrayBuffer()));
  expect(members.has("instruments/C-07/instrument.json")).toBe(true);
  const sent = await fetch(`${url}/invented/api/archive`, {
    method: "POST",
    headers: { "content-type": "application/zip" },
  });
  expect([sent.status, sent.headers.get("allow")]).toEqual([405, "GET"]);
  const own = await fetch(`${url}/api/archive`, { method: "DELETE" });
  expect([own.status, own.headers.get("allow")]).toEqual([405, "GET, POST"]);
});

test("both stand in the API's description with the types they have", async () => {
  const { url } = await served({ store: await stores.open() });
  const { paths } = await (await fetch(`${url}/api/openapi.json`)).json();
  expect(Object.keys(paths["/api/archive"])).toEqual(expect.arrayContaining(["get", "post"]));
  expect(Object.keys(paths["/invented/api/archive"])).toEqual(["get"]);
  expect(Object.keys(paths["/api/archive"].get.responses["200"].content)).toEqual(["application/zip"]);
  for (const status of ["403", "413", "415", "422", "503"]) {
    expect(paths["/api/archive"].post.responses, status).toHaveProperty(status);
  }
});
