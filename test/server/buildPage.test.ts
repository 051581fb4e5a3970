/** When the page is built anew. */
import { mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { isStale } from "../../server/buildPage.ts";

let web: string;

beforeEach(() => {
  web = mkdtempSync(join(tmpdir(), "boardtrue-page-"));
});

afterEach(() => rmSync(web, { recursive: true }));

/** A file changed at a second of our own. */
function file(path: string, second: number): void {
  mkdirSync(join(web, path, ".."), { recursive: true });
  writeFileSync(join(web, path), "");
  utimesSync(join(web, path), second, second);
}

test("a page that was never built is built", () => {
  file("main.ts", 100);
  expect(isStale(web)).toBe(true);
});

test("a page built after its last source is served as it is, whatever else was written while building", () => {
  file("main.ts", 100);
  file("views/plan.ts", 110);
  file("dist/index.html", 120);
  file("dist/assets/main.js", 130);
  expect(isStale(web)).toBe(false);
});

test("a source changed after the page was built makes it stale, however deep it lies", () => {
  file("main.ts", 100);
  file("dist/index.html", 120);
  file("views/plan.ts", 121);
  expect(isStale(web)).toBe(true);
});
