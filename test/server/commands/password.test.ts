/** `boardtrue password`: run as a program of its own, on records of its own. */
import { spawn } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { beginSession, roleSignedIn } from "../../../server/http/access/sessions.ts";
import { passwordMatches } from "../../../server/passwords.ts";
import { openStore } from "../../../server/records/openStore.ts";

// Each call starts a program: a second alone, several on a machine that does much else.
vi.setConfig({ testTimeout: 60_000 });

const bin = fileURLToPath(new URL("../../../server/boardtrue.mjs", import.meta.url));
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "boardtrue-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

function boardtrue(
  words: readonly string[],
  input: string,
): Promise<{ status: number | null; said: string; complained: string }> {
  return new Promise((resolve, reject) => {
    const { DATABASE_URL: _other, ...environment } = process.env;
    const child = spawn(process.execPath, [bin, ...words], {
      cwd: tmpdir(),
      env: { ...environment, BOARDTRUE_DATA: folder },
    });
    const ran = { status: null as number | null, said: "", complained: "" };
    child.stdout.on("data", (chunk) => {
      ran.said += chunk;
    });
    child.stderr.on("data", (chunk) => {
      ran.complained += chunk;
    });
    child.on("error", reject);
    child.on("close", (status) => resolve({ ...ran, status }));
    child.stdin.on("error", () => undefined);
    child.stdin.end(input);
  });
}

test("sets the password of a role from standard input, also while the server has the records open, and signs that role out", async () => {
  const store = await openStore({ folder }, { version: "0.0.0-test" });
  const now = new Date();
  const [owner, bench] = [await beginSession(store, "owner", now), await beginSession(store, "bench", now)];
  const ran = await boardtrue(["password", "owner"], "spruce and maple\n");
  expect(ran).toMatchObject({ status: 0, complained: "" });
  expect(ran.said).toMatch(/^The owner has a new password, /);
  expect(ran.said).not.toContain("spruce");
  const kept = await store.passwordHash("owner");
  expect(await passwordMatches("spruce and maple", kept!)).toBe(true);
  expect(await store.passwordHash("bench")).toBeNull();
  expect(await roleSignedIn(store, owner, now)).toBeNull();
  expect(await roleSignedIn(store, bench, now)).toBe("bench");
  await store.close();
  // Neither the password nor a token stands in any file of the records.
  for (const file of readdirSync(folder)) {
    const bytes = readFileSync(join(folder, file)).toString("latin1");
    for (const secret of ["spruce", owner, bench]) expect(bytes).not.toContain(secret);
  }
});

test.each([
  ["too short", ["password", "owner"], "maple\n", 1, /^At least 10 characters/],
  ["the role's own name", ["password", "bench"], "bench bench\n", 1, /^That is too near/],
  ["two lines", ["password", "bench"], "spruce and maple\nspruce and maple\n", 1, /give one line/],
  ["a word of the call", ["password", "owner", "spruce-and-maple"], "", 2, /^The password is no word of the call/],
  ["of a role that is none", ["password", "customer"], "spruce and maple\n", 2, /boardtrue password owner/],
  ["of nobody", ["password"], "spruce and maple\n", 2, /boardtrue password owner/],
])("a password that is %s is refused in words and changes nothing", async (_what, words, input, status, complaint) => {
  const store = await openStore({ folder }, { version: "0.0.0-test" });
  const before = [await store.passwordHash("owner"), await store.passwordHash("bench")];
  const ran = await boardtrue(words, input);
  expect(ran).toMatchObject({ status, said: "" });
  expect(ran.complained).toMatch(complaint);
  expect(ran.complained).not.toContain("spruce");
  expect([await store.passwordHash("owner"), await store.passwordHash("bench")]).toEqual(before);
  await store.close();
});
