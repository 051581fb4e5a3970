/** What each address of the server answers, and how it keeps strangers, odd paths and odd methods off. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { loadExamples } from "../../../server/exampleBoards.ts";
import { problemSchema } from "../../../server/http/wire/problem.ts";
import { loadInstrumentTable } from "../../../server/instrumentTable.ts";
import { exchange, formOf, type ServerUnderTest, startServer } from "./serverUnderTest.ts";

const csv = "x,y,height\n10,0,1.10\n";
let folder: string;
let server: ServerUnderTest;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "boardtrue-"));
  const web = join(folder, "web");
  const examples = join(folder, "examples");
  mkdirSync(join(web, "assets"), { recursive: true });
  mkdirSync(examples);
  writeFileSync(join(web, "index.html"), "<!doctype html><title>Boardtrue</title>");
  writeFileSync(join(web, "assets", "main-1a2b3c.js"), "export {};");
  writeFileSync(join(web, ".hidden"), "hidden");
  writeFileSync(join(folder, "secret.csv"), "secret");
  writeFileSync(join(examples, "worn.csv"), csv);
  writeFileSync(join(examples, "unlisted.csv"), "secret");
  const entry = { name: "worn", number: "C-07", title: "Cello", story: "Worn.", readings: "worn.csv" };
  writeFileSync(join(examples, "examples.json"), JSON.stringify([entry]));
  server = await startServer({ webFolder: web, examples: loadExamples(examples) });
});
afterAll(async () => {
  await server.stop();
  rmSync(folder, { recursive: true });
});

const get = (path: string, init: RequestInit = {}) => fetch(`${server.url}${path}`, init);

async function expectProblem(response: Response, kind: string): Promise<void> {
  expect(response.headers.get("content-type")).toMatch(/^application\/problem\+json/);
  const problem = await response.json();
  expect(problemSchema.parse(problem)).toEqual(problem);
  expect(problem.type).toBe(`urn:boardtrue:problem:${kind}`);
  expect(problem.status).toBe(response.status);
}

/** A GET on a bare socket, so that no client tidies the path or the headers up. */
async function bareGet(path: string, headers: readonly string[] = [`Host: 127.0.0.1:${server.port}`]): Promise<string> {
  return exchange(server.port, [[`GET ${path} HTTP/1.1`, ...headers, "Connection: close", "", ""].join("\r\n")]);
}

describe("the answers", () => {
  test("health tells the version", async () => {
    expect(await (await get("/api/health")).json()).toEqual({ status: "ok", version: "0.0.0-test" });
  });

  test("kinds list every instrument of the table, with the name that the setting takes and the origin of each figure", async () => {
    const { kinds, settings } = await (await get("/api/kinds")).json();
    const table = loadInstrumentTable();
    expect(kinds).toHaveLength(table.kinds.flatMap(({ instruments }) => instruments).length);
    const cello = kinds.find((kind: { instrument: string }) => kind.instrument === "cello 4/4");
    expect(cello).toMatchObject({ kind: "cello", size: "4/4", usual: true });
    expect(cello.figures.edgeLimitMm.origin).not.toBe("");
    // One size of each kind is the one meant where none is said.
    for (const { kind } of table.kinds) {
      const usual = kinds.filter((one: { kind: string; usual: boolean }) => one.kind === kind && one.usual);
      expect(usual).toHaveLength(1);
    }
    expect(settings.map(({ key }: { key: string }) => key)).toContain("tip_radius");
  });

  test("examples are listed with addresses that work, and without a thickness or rail file where there is none", async () => {
    const { examples } = await (await get("/api/examples")).json();
    expect(examples).toEqual([
      {
        id: "worn",
        number: "C-07",
        title: "Cello",
        story: "Worn.",
        readings: "/api/examples/worn/readings.csv",
        thickness: null,
        rail: null,
      },
    ]);
    const file = await get(examples[0].readings);
    expect(file.headers.get("content-type")).toMatch(/^text\/csv/);
    expect(await file.text()).toBe(csv);
    await expectProblem(await get("/api/examples/worn/thickness.csv"), "not-found");
    await expectProblem(await get("/api/examples/worn/rail.csv"), "not-found");
  });

  test("the page is asked for each time, its hashed files are kept", async () => {
    const page = await get("/");
    expect(await page.text()).toContain("<title>Boardtrue</title>");
    expect(page.headers.get("cache-control")).toBe("no-cache");
    expect((await get("/assets/main-1a2b3c.js")).headers.get("cache-control")).toContain("immutable");
  });

  test("HEAD is answered as GET, without a body", async () => {
    const response = await get("/api/kinds", { method: "HEAD" });
    expect(response.status).toBe(200);
    expect(await response.text()).toBe("");
  });

  test("large answers are compressed where the client takes it", async () => {
    expect((await get("/api/kinds")).headers.get("content-encoding")).toMatch(/gzip|br|deflate/);
  });
});

describe("an address that does not exist", () => {
  test.each(["/nothing", "/api", "/api/nothing", "/api/examinations/1", "/.hidden", "/index.html/x", "/api/examples/"])(
    "%s is not found, in the form of every refusal",
    async (path) => {
      const response = await get(path);
      // An ending slash names the same list; that is the one exception.
      if (path === "/api/examples/") expect(response.status).toBe(200);
      else await expectProblem(response, "not-found");
    },
  );

  test.each([
    "/api/examples/unlisted/readings.csv",
    "/api/examples/../secret/readings.csv",
    "/api/examples/..%2f..%2fsecret/readings.csv",
    "/api/examples/..%2f..%2fsecret.csv%00/readings.csv",
    "/api/examples/%2e%2e/readings.csv",
    "/api/examples/worn.csv/readings.csv",
    "/api/examples/__proto__/readings.csv",
    "/api/examples/constructor/readings.csv",
    "/../secret.csv",
    "/%2e%2e/secret.csv",
    "/..%2fsecret.csv",
    "/..%5csecret.csv",
    "/assets/../../secret.csv",
    "//secret.csv",
    "/%00",
    "/%ff",
    "/%",
    "/api/examples/%/readings.csv",
    `/${"a".repeat(5000)}`,
  ])("%s leads nowhere", async (path) => {
    const answer = await bareGet(path);
    expect(answer).toMatch(/^HTTP\/1\.1 4\d\d /);
    expect(answer).toContain("application/problem+json");
    expect(answer).not.toContain("secret\r\n");
    expect(answer).not.toContain(folder);
  });
});

describe("a method that an address does not take", () => {
  test.each([
    ["GET", "/api/examinations", "POST"],
    ["PUT", "/api/examinations", "POST"],
    ["DELETE", "/api/health", "GET"],
    ["POST", "/api/kinds", "GET"],
    ["PATCH", "/api/examples", "GET"],
    ["POST", "/api/examples/worn/readings.csv", "GET"],
    ["OPTIONS", "/api/openapi.json", "GET"],
  ])("%s %s is refused and told %s", async (method, path, allowed) => {
    const response = await get(path, { method });
    expect(response.headers.get("allow")).toBe(allowed);
    await expectProblem(response, "wrong-method");
  });
});

describe("strangers", () => {
  test.each([
    ["attacker.example", 421],
    ["127.0.0.1.attacker.example", 421],
    ["localhost.attacker.example:4870", 421],
    ["10.0.0.5", 421],
    ["127.0.0.1@attacker.example", 421],
    ["localhost:4870", 200],
    ["LOCALHOST", 200],
    ["[::1]:4870", 200],
    ["127.0.0.1:80", 200],
  ])("a request for the name %s gets %i", async (host, status) => {
    expect(await bareGet("/api/health", [`Host: ${host}`])).toMatch(new RegExp(`^HTTP/1\\.1 ${status} `));
  });

  test.each([
    ["http://attacker.example", "foreign-origin"],
    ["null", "foreign-origin"],
    ["http://127.0.0.1:1", "foreign-origin"],
    ["https://127.0.0.1", "foreign-origin"],
  ])("a form sent from a page of %s is refused", async (origin, kind) => {
    const response = await get("/api/examinations", {
      method: "POST",
      body: formOf({ readings: csv }),
      headers: { origin },
    });
    await expectProblem(response, kind);
  });

  test("a form sent from the server's own page is taken", async () => {
    const headers = { origin: server.url };
    const response = await get("/api/examinations", { method: "POST", body: formOf({ readings: csv }), headers });
    expect(response.status).toBe(200);
  });

  test("a form is refused where the browser itself says that it comes from elsewhere", async () => {
    const asked = [
      "POST /api/examinations HTTP/1.1",
      `Host: 127.0.0.1:${server.port}`,
      "Sec-Fetch-Site: cross-site",
      "Content-Length: 0",
      "Connection: close",
      "",
      "",
    ];
    expect(await exchange(server.port, [asked.join("\r\n")])).toMatch(/^HTTP\/1\.1 403 /);
  });
});

describe("headers", () => {
  test("let a page load from this server only, and never force https", async () => {
    for (const path of ["/", "/api/health", "/nothing"]) {
      const { headers } = await get(path);
      expect(headers.get("content-security-policy")).toBe(
        "default-src 'none';script-src 'self';style-src 'self';img-src 'self';connect-src 'self';base-uri 'none';" +
          "form-action 'self';frame-ancestors 'none';require-trusted-types-for 'script';trusted-types 'none'",
      );
      expect(headers.get("cross-origin-opener-policy")).toBe("same-origin");
      expect(headers.get("cross-origin-resource-policy")).toBe("same-origin");
      expect(headers.get("referrer-policy")).toBe("no-referrer");
      expect(headers.get("permissions-policy")).toMatch(/^camera=\(\), microphone=\(\), geolocation=\(\)/);
      expect(headers.get("strict-transport-security")).toBeNull();
      expect(headers.get("x-content-type-options")).toBe("nosniff");
      expect(headers.get("x-powered-by")).toBeNull();
      expect(headers.get("access-control-allow-origin")).toBeNull();
    }
  });

  test.each([
    ["two names of the server", ["Host: 127.0.0.1", "Host: attacker.example"], 400],
    ["no name of the server", [], 400],
    ["a line break smuggled in", ["Host: 127.0.0.1", "X-A: a\u0000b"], 400],
    ["more than 16 kB", ["Host: 127.0.0.1", `X-A: ${"a".repeat(20_000)}`], 431],
    ["a length that is no number", ["Host: 127.0.0.1", "Content-Length: abc"], 400],
    ["two lengths", ["Host: 127.0.0.1", "Content-Length: 1", "Content-Length: 2"], 400],
  ])("with %s are refused", async (_what, headers, status) => {
    const answer = await bareGet("/api/health", headers);
    expect(answer).toMatch(new RegExp(`^HTTP/1\\.1 ${status} `));
    expect(answer).toContain("application/problem+json");
  });

  test("with marks of all kinds in the content type are refused without harm", async () => {
    for (const type of [
      `multipart/form-data; boundary="${"b".repeat(3000)}"`,
      "multipart/form-data; boundary=\u00e9; a=b;;;",
    ]) {
      const response = await get("/api/examinations", { method: "POST", body: "x", headers: { "content-type": type } });
      expect(response.status).toBe(400);
    }
  });

  test("that are no HTTP at all get an answer too", async () => {
    expect(await exchange(server.port, ["What needs this board?\r\n\r\n"])).toMatch(/^HTTP\/1\.1 400 /);
  });
});

test("the log tells what was asked and how it went, and nothing of whom or what", async () => {
  const form = formOf({ readings: csv });
  form.append("thickness", new Blob(["x,side,thickness\n"]), "Anna's cello.csv");
  await get("/api/examinations", { method: "POST", body: form });
  await get("/api/examples/anna/readings.csv");
  await get("/anna");
  const log = server.log.join("");
  expect(log).toContain('"route":"/api/examinations","status":200');
  expect(log).toContain('"route":"-","status":404');
  expect(log.toLowerCase()).not.toContain("anna");
  expect(log).not.toContain("127.0.0.1");
});
