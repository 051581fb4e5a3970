/** What is open to whom where passwords are asked for: by every address of the server, and by role. */
import express from "express";
import pino from "pino";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { gate } from "../../../../server/http/access/gate.ts";
import { ownerOnly, roleOf } from "../../../../server/http/access/roles.ts";
import { beginSession } from "../../../../server/http/access/sessions.ts";
import { listen } from "../../../../server/http/listen.ts";
import { answerWithProblem } from "../../../../server/http/problems.ts";
import { openStore } from "../../../../server/records/openStore.ts";
import type { Role } from "../../../../server/records/records.ts";
import type { Store } from "../../../../server/records/store.ts";
import { exchange, type ServerUnderTest, startServer } from "../serverUnderTest.ts";

const sessionBegan = new Date();
let store: Store;
let server: ServerUnderTest;

beforeAll(async () => {
  store = await openStore({ memory: true }, { version: "0.0.0-test" });
  server = await startServer({ keys: store });
});
afterAll(async () => {
  await server.stop();
  await store.close();
});

const cookieFor = async (role: Role) => `boardtrue-session=${await beginSession(store, role, sessionBegan)}`;

describe("without signing in", () => {
  test("every address of the API that the description names is closed, but health and session", async () => {
    const headers = { cookie: await cookieFor("owner") };
    const { paths } = await (await fetch(`${server.url}/api/openapi.json`, { headers })).json();
    const operations = Object.entries(paths as Record<string, object>).flatMap(([path, methods]) =>
      Object.keys(methods).map((method) => [method.toUpperCase(), path.replace(/\{\w+\}/g, "1")] as const),
    );
    expect(operations.length).toBeGreaterThan(5);
    const open: string[] = [];
    for (const [method, path] of operations) {
      for (const address of [path, path.replace(/^\/api/, "/API"), path.replace(/^\/api/, "/invented/api")]) {
        const { status } = await fetch(`${server.url}${address}`, { method });
        if (status !== 401) open.push(`${method} ${address}`);
      }
    }
    const ofSession = ["GET", "POST", "DELETE"].flatMap((method) => [
      `${method} /api/session`,
      `${method} /API/session`,
    ]);
    const expected = ["GET /api/health", "GET /API/health", ...ofSession];
    expect(open.filter((one) => !expected.includes(one))).toEqual([]);
  });

  test.each([
    "/api/instruments",
    "/api/instruments/",
    "/api//instruments",
    "/API/Instruments",
    "/api/instruments/C-07/story",
    "/api/archive",
    "/api/due",
    "/api/nothing-here",
    "/api",
    "/api/",
    "/invented/api/instruments",
    "/api/../api/instruments",
    "/api/%2e%2e/api/instruments",
    "/api/session/../instruments",
  ])("%s tells nothing, not even whether it is there", async (path) => {
    const answer = await exchange(server.port, [
      `GET ${path} HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nConnection: close\r\n\r\n`,
    ]);
    expect(answer).toMatch(/^HTTP\/1\.1 401 /);
    expect(answer).toContain("urn:boardtrue:problem:sign-in-needed");
    expect(answer).toMatch(/\r\ncache-control: no-store\r\n/i);
  });

  test.each([
    "boardtrue-session=",
    `boardtrue-session=${"A".repeat(43)}`,
    `boardtrue-session=${"A".repeat(3000)}`,
    "boardtrue-session=%00; boardtrue-session='",
    "; ;;=;",
    "session=owner; role=owner",
  ])("the cookie %s opens nothing", async (cookie) => {
    expect((await fetch(`${server.url}/api/kinds`, { headers: { cookie } })).status).toBe(401);
  });

  test("a form with readings is refused before a byte of it is read", async () => {
    const response = await fetch(`${server.url}/api/examinations`, { method: "POST", body: "x".repeat(100_000) });
    expect(response.status).toBe(401);
    expect(server.seen.finished).toBe(0);
  });
});

test("what is told behind the gate is kept by no browser and no proxy", async () => {
  const headers = { cookie: await cookieFor("bench") };
  for (const path of ["/api/kinds", "/api/instruments", "/invented/api/due", "/api/openapi.json"]) {
    const response = await fetch(`${server.url}${path}`, { headers });
    expect(response.status).toBe(200);
    expect(response.headers.get("cache-control")).toBe("no-store");
  }
});

describe("where a password guards it, the server", () => {
  const asked = (headers: readonly string[], method = "GET") =>
    exchange(server.port, [[`${method} /api/health HTTP/1.1`, ...headers, "Connection: close", "", ""].join("\r\n")]);

  test.each(["workshop.local:4870", "192.0.2.7", "[2001:db8::7]:4870", "workshop_pc", "127.0.0.1"])(
    "answers by the name %s",
    async (host) => expect(await asked([`Host: ${host}`])).toMatch(/^HTTP\/1\.1 200 /),
  );

  test.each([
    ["a name that is none", ["Host: a b"], 421],
    ["markup", ["Host: <b>"], 421],
    ["no name", [], 400],
    ["two names", ["Host: a", "Host: b"], 400],
  ])("refuses %s", async (_what, headers, status) => {
    expect(await asked(headers)).toMatch(new RegExp(`^HTTP/1\\.1 ${status} `));
  });

  test.each([
    ["http://workshop.local:4870", 405],
    ["https://workshop.local:4870", 405],
    ["HTTP://Workshop.Local:4870", 405],
    ["http://workshop.local", 403],
    ["http://other.local:4870", 403],
    ["https://workshop.local.attacker.example:4870", 403],
    ["null", 403],
  ])("takes what changes something from its own pages only: %s gets %i", async (origin, status) => {
    // Health takes no POST: 405 is what a request gets that was let through.
    const answer = await asked(["Host: workshop.local:4870", `Origin: ${origin}`, "Content-Length: 0"], "POST");
    expect(answer).toMatch(new RegExp(`^HTTP/1\\.1 ${status} `));
  });

  test("believes no proxy's word on who asks, and asks for the password all the same", async () => {
    for (const address of ["127.0.0.1", "::1"]) {
      const headers = { "x-forwarded-for": address, "x-real-ip": address, forwarded: `for=${address}` };
      expect((await fetch(`${server.url}/api/kinds`, { headers })).status).toBe(401);
    }
  });
});

describe("a role", () => {
  async function withRoutes(keys: Store | null, ask: (url: string) => Promise<void>): Promise<void> {
    const app = express();
    app.use(
      "/api",
      gate(keys, () => sessionBegan),
    );
    app.get("/api/role", (request, response) => void response.json(roleOf(request)));
    app.delete("/api/notes", ownerOnly, (_request, response) => void response.status(204).end());
    app.get("/ungated", (request, response) => void response.json(roleOf(request)));
    app.use(answerWithProblem(pino({ level: "silent" })));
    const listening = await listen(app, { host: "127.0.0.1", port: 0 });
    await ask(`http://127.0.0.1:${listening.port}`);
    await listening.stop();
  }

  test("is known behind the gate; the owner's own is closed to the bench", async () => {
    const [owner, bench] = [await cookieFor("owner"), await cookieFor("bench")];
    await withRoutes(store, async (url) => {
      for (const [role, cookie, status] of [
        ["owner", owner, 204],
        ["bench", bench, 403],
      ] as const) {
        expect(await (await fetch(`${url}/api/role`, { headers: { cookie } })).json()).toBe(role);
        const erasing = await fetch(`${url}/api/notes`, { method: "DELETE", headers: { cookie } });
        expect(erasing.status).toBe(status);
        if (status === 403) expect(await erasing.json()).toMatchObject({ type: "urn:boardtrue:problem:owner-only" });
      }
      expect((await fetch(`${url}/api/notes`, { method: "DELETE" })).status).toBe(401);
    });
  });

  test("is the owner's for everybody where no passwords are asked for", async () => {
    await withRoutes(null, async (url) => {
      expect(await (await fetch(`${url}/api/role`)).json()).toBe("owner");
      expect((await fetch(`${url}/api/notes`, { method: "DELETE" })).status).toBe(204);
    });
  });

  test("that no gate has told opens nothing: the program fails instead", async () => {
    await withRoutes(null, async (url) => expect((await fetch(`${url}/ungated`)).status).toBe(500));
  });
});
