/** Signing in and out over HTTP, on a real store: who gets in, to what, for how long, and what a browser is told to keep. */
import { afterEach, beforeAll, beforeEach, describe, expect, test, vi } from "vitest";
import { sessionSchema } from "../../../../server/http/wire/session.ts";
import { hashPassword } from "../../../../server/passwords.ts";
import { openStore } from "../../../../server/records/openStore.ts";
import type { Role } from "../../../../server/records/records.ts";
import type { Store } from "../../../../server/records/store.ts";
import { formOf, type ServerUnderTest, startServer } from "../serverUnderTest.ts";

const passwordOf: Record<Role, string> = { owner: "spruce and maple", bench: "ebony and pear wood" };

let hashes: Record<Role, string>;
let store: Store;
let server: ServerUnderTest;
let now: Date;

beforeAll(async () => {
  const [owner, bench] = await Promise.all([hashPassword(passwordOf.owner), hashPassword(passwordOf.bench)]);
  hashes = { owner, bench };
});

beforeEach(async () => {
  now = new Date("2026-11-25T09:00:00.000Z");
  store = await openStore({ memory: true }, { version: "0.0.0-test" });
  await store.setPasswordHash("owner", hashes.owner);
  await store.setPasswordHash("bench", hashes.bench);
  server = await startServer({ keys: store, now: () => now });
});

afterEach(async () => {
  vi.restoreAllMocks();
  await server.stop();
  await store.close();
});

const ask = (path: string, init: RequestInit = {}) => fetch(`${server.url}${path}`, init);

function signIn(role: Role, password: string, headers: Record<string, string> = {}): Promise<Response> {
  return ask("/api/session", {
    method: "POST",
    headers: { "content-type": "application/json", ...headers },
    body: JSON.stringify({ role, password }),
  });
}

/** As a browser sends it back. */
const cookieOf = (response: Response): string => response.headers.get("set-cookie")?.split(";")[0] ?? "";

async function signedIn(role: Role): Promise<Record<string, string>> {
  const response = await signIn(role, passwordOf[role]);
  expect(response.status).toBe(200);
  return { cookie: cookieOf(response) };
}

async function expectProblem(response: Response, status: number, kind: string): Promise<{ detail: string }> {
  const problem = await response.json();
  expect(problem).toMatchObject({ status, type: `urn:boardtrue:problem:${kind}` });
  expect(response.status).toBe(status);
  return problem;
}

describe("signing in", () => {
  test("with the role's password gives a session, and the cookie that carries it", async () => {
    expect(await (await ask("/api/session")).json()).toEqual({ needed: true, role: null });
    const response = await signIn("owner", passwordOf.owner);
    const told = await response.json();
    expect(sessionSchema.strict().parse(told)).toEqual({ needed: true, role: "owner" });
    expect(response.headers.get("set-cookie")).toMatch(
      /^boardtrue-session=[\w-]{43}; Max-Age=2592000; Path=\/; Expires=[^;]+; HttpOnly; SameSite=Strict$/,
    );
    expect(response.headers.get("cache-control")).toBe("no-store");
    const headers = { cookie: cookieOf(response) };
    expect(await (await ask("/api/session", { headers })).json()).toEqual({ needed: true, role: "owner" });
    expect((await ask("/api/kinds", { headers })).status).toBe(200);
  });

  test("over https, as a proxy in front says, keeps the cookie to https", async () => {
    const response = await signIn("bench", passwordOf.bench, { "x-forwarded-proto": "https" });
    expect(response.headers.get("set-cookie")).toMatch(/; HttpOnly; Secure; SameSite=Strict$/);
  });

  test("the store holds no token and no password, only what can't be turned back", async () => {
    const added = vi.spyOn(store, "addSession");
    const { cookie } = await signedIn("owner");
    const token = cookie.split("=")[1];
    const [tokenSha256] = added.mock.calls[0];
    expect(tokenSha256).toMatch(/^[0-9a-f]{64}$/);
    expect(await store.session(token, now.toISOString())).toBeNull();
    expect(await store.session(tokenSha256, now.toISOString())).toMatchObject({ role: "owner" });
    // Whoever reads the store can't sign in with what stands there.
    const withHash = await ask("/api/kinds", { headers: { cookie: `boardtrue-session=${tokenSha256}` } });
    expect(withHash.status).toBe(401);
  });

  test.each([
    ["another password", "owner", "spruce and Maple"],
    ["the other role's password", "owner", passwordOf.bench],
    ["no password", "bench", ""],
    ["two thousand characters", "bench", "a".repeat(2000)],
  ] as const)("with %s gets nobody in", async (_what, role, password) => {
    const response = await signIn(role, password);
    await expectProblem(response, 401, "wrong-password");
    expect(response.headers.get("www-authenticate")).toBe('Session realm="Boardtrue"');
    expect(response.headers.get("set-cookie")).toBeNull();
  });

  test("to a role that has no password yet says how to set one", async () => {
    const empty = await openStore({ memory: true }, { version: "0.0.0-test" });
    const without = await startServer({ keys: empty });
    const response = await fetch(`${without.url}/api/session`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ role: "bench", password: passwordOf.bench }),
    });
    expect((await expectProblem(response, 401, "wrong-password")).detail).toContain("boardtrue password bench");
    await without.stop();
    await empty.close();
  });

  test.each([
    ["another role", '{ "role": "customer", "password": "spruce and maple" }', "broken-json"],
    ["a password that is no text", '{ "role": "owner", "password": 1234567890 }', "broken-json"],
    ["a list", '["owner"]', "broken-json"],
    ["one word more", '{ "role": "owner", "password": "spruce and maple", "forever": true }', "broken-json"],
    ["broken JSON", '{ "role": ', "broken-json"],
    ["more than anybody types", `{ "role": "owner", "password": "${"a".repeat(70_000)}" }`, "too-large"],
  ])("with %s is refused in words, and the password is not said again", async (_what, body, kind) => {
    const response = await ask("/api/session", {
      method: "POST",
      headers: { "content-type": "application/json" },
      body,
    });
    const text = await response.text();
    expect(JSON.parse(text)).toMatchObject({ type: `urn:boardtrue:problem:${kind}` });
    expect(text).not.toMatch(/spruce|1234567890|aaaa/);
  });

  test("from a page of another site is refused before anything is tried", async () => {
    const looked = vi.spyOn(store, "passwordHash");
    for (const headers of [
      { origin: "http://attacker.example" },
      { origin: "null" },
      { "sec-fetch-site": "cross-site" },
    ] as Record<string, string>[]) {
      await expectProblem(await signIn("owner", passwordOf.owner, headers), 403, "foreign-origin");
    }
    expect(looked).not.toHaveBeenCalled();
  });

  test("again ends the session before it, and its token is another", async () => {
    const before = await signedIn("bench");
    const response = await signIn("owner", passwordOf.owner, before);
    expect(cookieOf(response)).not.toBe(before.cookie);
    expect((await ask("/api/kinds", { headers: before })).status).toBe(401);
    expect((await ask("/api/kinds", { headers: { cookie: cookieOf(response) } })).status).toBe(200);
  });

  test("with a password that is replaced in that moment gets nobody in", async () => {
    const added = vi.spyOn(store, "addSession").mockImplementationOnce(async (...session) => {
      added.mockRestore();
      await store.setPasswordHash("owner", hashes.bench);
      await store.addSession(...session);
    });
    await expectProblem(await signIn("owner", passwordOf.owner), 401, "wrong-password");
  });
});

describe("signing out", () => {
  test("ends the session in the store, so that a copied cookie opens nothing either", async () => {
    const headers = await signedIn("owner");
    const response = await ask("/api/session", { method: "DELETE", headers });
    expect(response.status).toBe(204);
    expect(response.headers.get("set-cookie")).toMatch(/^boardtrue-session=; Path=\/; Expires=Thu, 01 Jan 1970/);
    await expectProblem(await ask("/api/kinds", { headers }), 401, "sign-in-needed");
    expect(await (await ask("/api/session", { headers })).json()).toEqual({ needed: true, role: null });
  });

  test("of one leaves the others of the role signed in; a new password does not", async () => {
    const [one, other] = [await signedIn("bench"), await signedIn("bench")];
    await ask("/api/session", { method: "DELETE", headers: one });
    expect((await ask("/api/kinds", { headers: other })).status).toBe(200);
    await store.setPasswordHash("bench", hashes.owner);
    expect((await ask("/api/kinds", { headers: other })).status).toBe(401);
  });

  test("comes by itself after twelve hours without a request", async () => {
    const headers = await signedIn("bench");
    now = new Date(now.getTime() + 12 * 3_600_000 - 1);
    expect((await ask("/api/kinds", { headers })).status).toBe(200);
    now = new Date(now.getTime() + 12 * 3_600_000);
    expect((await ask("/api/kinds", { headers })).status).toBe(401);
  });
});

describe("wrong passwords", () => {
  test("after five must wait, however many are sent at once: the rest reach neither the store nor a hash", async () => {
    const looked = vi.spyOn(store, "passwordHash");
    const answers = await Promise.all(Array.from({ length: 40 }, () => signIn("owner", "wrong password")));
    const statuses = answers.map(({ status }) => status).sort();
    expect(statuses.filter((status) => status === 401)).toHaveLength(5);
    expect(statuses.filter((status) => status === 429)).toHaveLength(35);
    expect(looked).toHaveBeenCalledTimes(5);
    const refused = answers.find(({ status }) => status === 429)!;
    expect(Number(refused.headers.get("retry-after"))).toBeGreaterThan(0);
    expect(Number(refused.headers.get("retry-after"))).toBeLessThanOrEqual(2);
    expect((await expectProblem(refused, 429, "too-many-tries")).detail).toMatch(/wait [12] seconds/);
  });

  test("are forgiven by the right one once the wait is over; meanwhile it is refused, too", async () => {
    await Promise.all(Array.from({ length: 5 }, () => signIn("owner", "wrong password")));
    const early = await signIn("owner", passwordOf.owner);
    expect(early.status).toBe(429);
    await new Promise((resolve) => setTimeout(resolve, Number(early.headers.get("retry-after")) * 1000));
    expect((await signIn("owner", passwordOf.owner)).status).toBe(200);
    expect((await signIn("owner", "wrong password")).status).toBe(401);
  });

  test("do not lock the other role", async () => {
    await Promise.all(Array.from({ length: 6 }, () => signIn("owner", "wrong password")));
    expect((await signIn("bench", passwordOf.bench)).status).toBe(200);
  });

  test("are not counted where the store could not be asked", async () => {
    const broken = vi.spyOn(store, "passwordHash").mockRejectedValue(new Error("spruce and maple"));
    for (let time = 0; time < 8; time += 1) expect((await signIn("owner", passwordOf.owner)).status).toBe(500);
    broken.mockRestore();
    expect((await signIn("owner", passwordOf.owner)).status).toBe(200);
    expect(server.log.join("")).not.toContain("spruce");
  });
});

test("the API's description names what signing in and out answer, refusals included", async () => {
  const headers = await signedIn("owner");
  const { paths } = await (await ask("/api/openapi.json", { headers })).json();
  const described = (method: string) => Object.keys(paths["/api/session"][method].responses);
  const json = { "content-type": "application/json" };
  const posts: RequestInit[] = [
    { headers: json, body: JSON.stringify({ role: "owner", password: passwordOf.owner }) },
    { headers: json, body: JSON.stringify({ role: "owner", password: "wrong password" }) },
    { headers: json, body: "{" },
    { headers: json, body: `"${"a".repeat(70_000)}"` },
    { headers: { "content-type": "text/plain" }, body: "{}" },
    { headers: { ...json, origin: "http://attacker.example" }, body: "{}" },
  ];
  const answered: number[] = [];
  for (const post of posts) answered.push((await ask("/api/session", { method: "POST", ...post })).status);
  expect(answered).toEqual([200, 401, 400, 413, 415, 403]);
  expect(described("post")).toEqual(expect.arrayContaining([...answered, 408, 421, 429, 500, 503].map(String)));
  expect((await ask("/api/session", { method: "DELETE" })).status).toBe(204);
  expect(described("delete")).toEqual(expect.arrayContaining(["204", "403", "421", "429", "500", "503"]));
  expect((await ask("/api/session", { method: "PUT" })).headers.get("allow")).toBe("GET, POST, DELETE");
});

describe("on this machine alone", () => {
  test("nobody signs in and everybody is the owner", async () => {
    const open = await startServer();
    const session = { needed: false, role: "owner" };
    expect(await (await fetch(`${open.url}/api/session`)).json()).toEqual(session);
    const signing = await fetch(`${open.url}/api/session`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ role: "bench", password: "anything at all" }),
    });
    expect(await signing.json()).toEqual(session);
    expect(signing.headers.get("set-cookie")).toBeNull();
    expect((await fetch(`${open.url}/api/session`, { method: "DELETE" })).status).toBe(204);
    expect(
      (await fetch(`${open.url}/api/examinations`, { method: "POST", body: formOf({ readings: "x" }) })).status,
    ).toBe(200);
    await open.stop();
  });

  test.each(["forwarded", "x-forwarded-for", "x-forwarded-host", "x-forwarded-proto", "x-real-ip"])(
    "what a proxy passed on (%s) is refused: others would get in by it as owners",
    async (header) => {
      const open = await startServer();
      const response = await fetch(`${open.url}/api/kinds`, { headers: { [header]: "for=192.0.2.1" } });
      expect((await expectProblem(response, 403, "through-proxy")).detail).toContain("BOARDTRUE_SIGN_IN=always");
      await open.stop();
    },
  );
});
