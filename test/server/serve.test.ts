/** The server as a program of its own: what it says, how it is told to stop, and why it may not start. */
import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { hashPassword } from "../../server/passwords.ts";
import { openStore } from "../../server/records/openStore.ts";
import { startServer } from "./http/serverUnderTest.ts";

const main = fileURLToPath(new URL("../../server/main.ts", import.meta.url));
const bin = fileURLToPath(new URL("../../server/boardtrue.mjs", import.meta.url));
const tsx = import.meta.resolve("tsx");

// Starting a program takes seconds on a machine that does much else; the first start may build the page.
vi.setConfig({ testTimeout: 120_000 });

/** Records of the tests' own, never the user's. */
let records: string;
beforeAll(() => {
  records = mkdtempSync(join(tmpdir(), "boardtrue-"));
});
afterAll(() => rmSync(records, { recursive: true }));

type Program = {
  readonly child: ChildProcess;
  readonly ended: Promise<number | null>;
  said: string;
  complained: string;
};

function start(words: readonly string[], environment: Record<string, string>): Program {
  const env = { ...process.env, DATABASE_URL: "", BOARDTRUE_DATA: records, ...environment };
  const child = spawn(process.execPath, words, { cwd: tmpdir(), env });
  const ended = new Promise<number | null>((resolve) => child.on("close", resolve));
  const program: Program = { child, ended, said: "", complained: "" };
  child.stdout.on("data", (chunk) => {
    program.said += chunk;
  });
  child.stderr.on("data", (chunk) => {
    program.complained += chunk;
  });
  return program;
}

const startMain = (environment: Record<string, string>) => start(["--import", tsx, main], environment);

test("it says its address and a verdict on each example board, answers, and stops on a signal", async () => {
  const program = startMain({ PORT: "0" });
  await vi.waitFor(() => expect(program.said).toMatch(/\nC-07 {2}.*: .*\n/), { timeout: 90_000, interval: 50 });
  const [, address] = /^Boardtrue \S+ at (http:\/\/127\.0\.0\.1:\d+)\/\n/.exec(program.said) ?? [];
  const { examples } = await (await fetch(`${address}/api/examples`)).json();
  const readings = await (await fetch(`${address}${examples[0].readings}`)).blob();
  const form = new FormData();
  form.append("readings", readings, "readings.csv");
  const examined = await fetch(`${address}/api/examinations`, { method: "POST", body: form });
  expect(examined.status).toBe(200);
  expect((await examined.json()).instrument.kind).toBe("cello");
  expect(await (await fetch(`${address}/`)).text()).toContain("<html");
  await vi.waitFor(() => expect(program.said.trimEnd().split("\n")).toHaveLength(2 + examples.length), {
    timeout: 60_000,
  });
  program.child.kill("SIGTERM");
  expect(await program.ended).toBe(0);
});

test.each([
  ["a port that is taken", "PORT", null, /^Port \d+ is taken .*PORT=\d+ npm start\n$/],
  ["a port that is no number", "PORT", "http", /^PORT=http: give a whole number from 0 to 65535/],
  ["a limit of nothing", "BOARDTRUE_UPLOAD_LIMIT", "0", /^BOARDTRUE_UPLOAD_LIMIT=0: give a whole number/],
  ["a host that others can reach, without a password", "HOST", "0.0.0.0", /^HOST=0\.0\.0\.0: .*password owner\n$/],
  ["another word for passwords", "BOARDTRUE_SIGN_IN", "never", /^BOARDTRUE_SIGN_IN=never: say always/],
  ["a word for passwords without one set", "BOARDTRUE_SIGN_IN", "always", /password owner\n$/],
])("%s stops it from starting, in plain words", async (_what, name, value, complaint) => {
  const other = await startServer();
  const program = startMain({ PORT: "0", [name]: value ?? String(other.port) });
  expect(await program.ended).toBe(1);
  expect(program.said).toBe("");
  expect(program.complained).toMatch(complaint);
  await other.stop();
});

test("a host that is no address of this machine stops it as well, once the owner has a password", async () => {
  const folder = mkdtempSync(join(records, "guarded-"));
  const store = await openStore({ folder }, { version: "0.0.0-test" });
  await store.setPasswordHash("owner", await hashPassword("spruce and maple"));
  // 192.0.2.0/24 is nobody's: RFC 5737.
  const elsewhere = startMain({ PORT: "0", BOARDTRUE_DATA: folder, HOST: "192.0.2.1" });
  expect(await elsewhere.ended).toBe(1);
  expect(elsewhere.complained).toMatch(/^HOST=192\.0\.2\.1 is no name or address of this machine/);
  await store.close();
});

test("where passwords are asked for, it lets in whoever has one, and the others see health and the page", async () => {
  const folder = mkdtempSync(join(records, "guarded-"));
  const store = await openStore({ folder }, { version: "0.0.0-test" });
  await store.setPasswordHash("owner", await hashPassword("spruce and maple"));
  await store.close();
  const program = startMain({ PORT: "0", BOARDTRUE_DATA: folder, BOARDTRUE_SIGN_IN: "always" });
  await vi.waitFor(() => expect(program.said).toContain("(with a password)"), { timeout: 90_000, interval: 50 });
  const [, address] = /^Boardtrue \S+ at (http:\/\/127\.0\.0\.1:\d+)\//.exec(program.said) ?? [];
  for (const [path, status] of Object.entries({ "/": 200, "/sign-in": 200, "/api/health": 200, "/api/kinds": 401 })) {
    expect((await fetch(`${address}${path}`)).status).toBe(status);
  }
  const signedIn = await fetch(`${address}/api/session`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ role: "owner", password: "spruce and maple" }),
  });
  const cookie = signedIn.headers.get("set-cookie")?.split(";")[0] ?? "";
  expect((await fetch(`${address}/api/instruments`, { headers: { cookie } })).status).toBe(200);
  expect((await fetch(`${address}/api/instruments`)).status).toBe(401);
  program.child.kill("SIGTERM");
  expect(await program.ended).toBe(0);
});

test("the command serves as well, and fails alike", async () => {
  const program = start([bin, "serve"], { HOST: "192.0.2.1" });
  expect(await program.ended).toBe(1);
  expect(program.complained).toMatch(/^HOST=192\.0\.2\.1: .*password owner\n$/);
});
