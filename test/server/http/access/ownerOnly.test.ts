/** What only the owner may do, on the real routes and a real store: the bench is told so, and nothing is changed. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { beginSession } from "../../../../server/http/access/sessions.ts";
import { problems } from "../../../../server/http/problems.ts";
import { openStore } from "../../../../server/records/openStore.ts";
import type { Role } from "../../../../server/records/records.ts";
import type { Store } from "../../../../server/records/store.ts";
import { formOf, type ServerUnderTest, startServer } from "../serverUnderTest.ts";

let store: Store;
let server: ServerUnderTest;
let cookies: Record<Role, string>;
let visit: string;

beforeAll(async () => {
  store = await openStore({ memory: true }, { version: "0.0.0-test" });
  server = await startServer({ store, keys: store });
  const cookieFor = async (role: Role) => `boardtrue-session=${await beginSession(store, role, new Date())}`;
  cookies = { bench: await cookieFor("bench"), owner: await cookieFor("owner") };
  const added = await as("bench", "POST", "/api/instruments", { number: "C-07", kind: "cello" });
  expect(added.status).toBe(201);
  const form = formOf({ readings: "x,y,height\n10,0,1.10\n" });
  for (const [name, said] of Object.entries({
    date: "2026-11-25",
    player_hand: "left",
    player_notes: "a small hand",
  })) {
    form.append(name, said);
  }
  const kept = await fetch(`${server.url}/api/instruments/C-07/visits`, {
    method: "POST",
    headers: { cookie: cookies.bench },
    body: form,
  });
  expect(kept.status).toBe(201);
  visit = kept.headers.get("location")!;
});
afterAll(async () => {
  await server.stop();
  await store.close();
});

function as(role: Role, method: string, path: string, json?: object, more: Record<string, string> = {}) {
  const headers = {
    cookie: cookies[role],
    ...(json === undefined ? {} : { "content-type": "application/json" }),
    ...more,
  };
  return fetch(`${server.url}${path}`, {
    method,
    headers,
    ...(json === undefined ? {} : { body: JSON.stringify(json) }),
  });
}

test("erasing what concerns a person is the owner's; the bench may write and read it", async () => {
  const player = `${visit}/player`;
  for (const path of [player, "/api/instruments/C-07/players"]) {
    const refused = await as("bench", "DELETE", path);
    expect(refused.status).toBe(403);
    expect(await refused.json()).toMatchObject({ type: "urn:boardtrue:problem:owner-only" });
  }
  expect(await (await as("bench", "GET", player)).json()).toMatchObject({ notes: "a small hand" });
  expect(await (await as("owner", "DELETE", player)).json()).toEqual({ erased: 1 });
  expect(await (await as("bench", "GET", player)).json()).toMatchObject({ hand: "", notes: "", revision: null });
});

test("withdrawing a visit is the owner's; the bench may write down the rest", async () => {
  const etag = async () => ({ "if-match": (await as("bench", "GET", visit)).headers.get("etag")! });
  expect((await as("bench", "PATCH", visit, { workNotes: "planed" }, await etag())).status).toBe(200);
  for (const withdrawn of ["a slip", null]) {
    const refused = await as("bench", "PATCH", visit, { withdrawn, workNotes: "scraped" }, await etag());
    expect(refused.status).toBe(403);
  }
  expect(await (await as("bench", "GET", visit)).json()).toMatchObject({ withdrawn: null, workNotes: "planed" });
  expect((await as("owner", "PATCH", visit, { withdrawn: "a slip" }, await etag())).status).toBe(200);
});

test("every operation that the API's description calls the owner's refuses the bench, and no other does", async () => {
  const { paths } = await (await as("owner", "GET", "/api/openapi.json")).json();
  const id = visit.split("/").at(-1)!;
  const wrong: string[] = [];
  let owners = 0;
  for (const [path, operations] of Object.entries(paths as Record<string, Record<string, Described>>)) {
    const address = path
      .replace("{number}", "C-07")
      .replace("{id}", id)
      .replace(/\{\w+\}/, "1");
    for (const [method, { responses }] of Object.entries(operations)) {
      // Of a visit's notes only the withdrawal is the owner's: see above. Signing out would end this session.
      if (method === "patch" || path === "/api/session") continue;
      const isOwners = responses["403"]?.description.includes(problems["owner-only"].title) ?? false;
      if (isOwners) owners += 1;
      const answer = await as("bench", method.toUpperCase(), address);
      const kind = answer.status === 403 ? (await answer.json()).type : "";
      if ((kind === "urn:boardtrue:problem:owner-only") !== isOwners)
        wrong.push(`${method} ${path}: ${answer.status} ${kind}`);
    }
  }
  expect(wrong).toEqual([]);
  // The players' notes, of a visit and of an instrument, in the workshop's records and in the invented loan store.
  expect(owners).toBeGreaterThanOrEqual(4);
});

type Described = { readonly responses: Readonly<Record<string, { readonly description: string }>> };
