/**
 * The rules of the house: the build fails where a file breaks one. They are stated, and checked, in support/houseRules.ts.
 *
 * Each rule is first shown to be able to fail, on a small wrong example; then every file is held against all of them.
 */
import { execFileSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { breachesOf, machineTraces, strangersAtTheTop } from "./support/houseRules.ts";

const root = fileURLToPath(new URL("..", import.meta.url));
const doc = "/** A file. */\n";

describe("a breach is seen", () => {
  test.each([
    ["maths knows no boards", "server/core/maths/a.ts", `import { stopMm } from "../board/stops.ts";`],
    [
      "an earlier step knows no later one",
      "server/core/surface/a.ts",
      `import type { WearMap } from "../wear/wearMap.ts";`,
    ],
    [
      "a later step handed on is an import too",
      "server/core/wear/a.ts",
      `export { leastCut } from "../planing/leastCut.ts";`,
    ],
    ["and so is one fetched while running", "server/core/wear/a.ts", `const later = await import("../examine.ts");`],
    ["core knows no reports", "server/core/examine.ts", `import { plainText } from "../reports/plainText.ts";`],
    ["the shared words hold no steps", "server/core/fault.ts", `import { readings } from "./readings/readings.ts";`],
    ["reports know no records", "server/reports/a.ts", `import { store } from "../records/store.ts";`],
    ["records know no reports", "server/records/a.ts", `import { words } from "../reports/words.ts";`],
    ["records know no http", "server/records/a.ts", `import { app } from "../http/app.ts";`],
    ["reports don't know the files beside main", "server/reports/a.ts", `import { version } from "../version.ts";`],
    ["http does not know main", "server/http/a.ts", `import { start } from "../main.ts";`],
    ["a new folder in core needs its place in the order", "server/core/sound/a.ts", `import { a } from "../units.ts";`],
    ["charts know no views", "web/chart/a.ts", `import { drawWearMap } from "../views/wearMap.ts";`],
    ["views know no pages", "web/views/a.ts", `import { page } from "../pages/examination.ts";`],
    ["views don't ask the server", "web/views/a.ts", `import { examine } from "../api/bench.ts";`],
    [
      "the page takes no code from the server",
      "web/api/a.ts",
      `import { examine } from "../../server/core/examine.ts";`,
    ],
    [
      "a type among values still runs the file",
      "web/api/a.ts",
      `import { type Fault } from "../../server/core/fault.ts";`,
    ],
    ["the server knows no page", "server/main.ts", `import { scales } from "../web/chart/scales.ts";`],
    ["the program knows no tests", "server/main.ts", `import { near } from "../test/support/near.ts";`],
    ["imports carry their ending", "server/core/wear/a.ts", `import { a } from "./b";`],
    ["core reads no files", "server/core/board/a.ts", `import { readFileSync } from "node:fs";`],
    ["core takes in no server packages", "server/core/board/a.ts", `import express from "express";`],
    ["the page has no Node", "web/pages/a.ts", `import { dirname, join } from "node:path";`],
    ["core has no clock", "server/core/wear/a.ts", "const now = new Date();"],
    ["not even to time itself", "server/core/wear/a.ts", "const start = performance.now();"],
    ["core has no unseeded randomness", "server/core/maths/a.ts", "const draw = Math.random();"],
    ["core does not know its process", "server/core/wear/a.ts", "const on = process.platform;"],
    ["core does not know a page", "server/core/wear/a.ts", `document.title = "wear";`],
    ["nor a window", "server/core/wear/a.ts", "const width = window.innerWidth;"],
    ["the environment is main's and command's", "server/http/a.ts", "const port = process.env.PORT;"],
    ["and so are arguments", "server/records/a.ts", "const path = process.argv[2];"],
    ["and leaving", "server/examiner.ts", "process.exit(1);"],
    ["by any door", "server/http/a.ts", `import { env } from "node:process";`],
    ["SQL is the records' alone", "server/http/a.ts", "const all = `select * from visit where id = 7`;"],
    ["and so are databases", "server/http/a.ts", `import { Kysely } from "kysely";`],
    ["pages ask the server through api", "web/pages/a.ts", `const answer = await fetch("/api/kinds");`],
  ])("%s", (_rule, path, code) => {
    expect(breachesOf({ path, text: doc + code })).toHaveLength(1);
  });

  test("a file opens with a doc comment", () => {
    expect(breachesOf({ path: "server/core/units.ts", text: "export const a = 1;" })).toHaveLength(1);
  });

  test("the top level keeps to its list", () => {
    expect(strangersAtTheTop(["package.json", "notes.txt", "src", ".npmrc", "server"])).toEqual(["notes.txt", "src"]);
  });

  test("a machine's paths and registries are found, with their line", () => {
    const path = ["", "home", "someone", "board.csv"].join("/");
    const host = ["registry", "example", "org"].join(".");
    expect(machineTraces({ path: "a.ts", text: `// first\nopen("${path}")` })).toEqual([
      `a.ts, line 2: ${path.slice(0, 7)}`,
    ]);
    expect(machineTraces({ path: "package-lock.json", text: `"resolved": "https://${host}/d3"` })).toHaveLength(1);
  });
});

describe("what is allowed is let pass", () => {
  test.each([
    ["a later step uses an earlier one", "server/core/wear/a.ts", `import { fit } from "../surface/unwornSurface.ts";`],
    ["a step uses its own folder", "server/core/wear/a.ts", `import { name } from "./wornPlaces.ts";`],
    ["every step uses the shared words", "server/core/maths/a.ts", `import type { Place } from "../units.ts";`],
    [
      "the examination names the board's types",
      "server/core/examination.ts",
      `import type { Kind } from "./board/instrument.ts";`,
    ],
    ["core computes with a matrix package", "server/core/maths/a.ts", `import { Matrix } from "ml-matrix";`],
    ["the page takes types", "web/views/a.ts", `import type { Maps } from "../../server/core/examination.ts";`],
    [
      "a Date of its own, a key and a comment",
      "server/core/wear/a.ts",
      "/* Date */ const f = (Date: number) => ({ window: Date });",
    ],
    ["a slide's window", "server/core/surface/a.ts", "export const widest = (window: number[]) => window.length;"],
    ["an API's path that looks like a folder", "web/main.ts", `const address = "/api/examinations";`],
    ["prose that begins like SQL", "server/reports/a.ts", `const says = "Update the board's record after planing.";`],
  ])("%s", (_rule, path, code) => {
    expect(breachesOf({ path, text: doc + code })).toEqual([]);
  });

  test("an address that ends like a machine's path", () => {
    expect(machineTraces({ path: "a.ts", text: "https://example.org/home/page and ./tmp/x and a/work/b" })).toEqual([]);
  });
});

describe("the house keeps its rules", () => {
  const sources = ["server", "web"].flatMap((folder) => filesUnder(folder)).filter((path) => /\.(ts|mjs)$/.test(path));

  test("there are sources to look at", () => {
    expect(sources.length).toBeGreaterThan(20);
  });

  test("every source keeps to the order of imports, to the purity of core, and to its place", () => {
    expect(sources.flatMap((path) => breachesOf({ path, text: readFileSync(join(root, path), "utf8") }))).toEqual([]);
  });

  test("a test stands in the folder of what it tests", () => {
    const folders = new Set(sources.map((path) => dirname(path)));
    const orphans = [...filesUnder("test/server"), ...filesUnder("test/web")]
      .filter((path) => path.endsWith(".test.ts"))
      .filter((path) => !folders.has(dirname(path).slice("test/".length)));
    expect(orphans).toEqual([]);
  });

  test("the top level holds nothing but what belongs there", () => {
    expect(strangersAtTheTop(readdirSync(root))).toEqual([]);
  });

  test.skipIf(!existsSync(join(root, ".git")))(
    "no tracked file names a path of some machine or a package registry",
    () => {
      const tracked = execFileSync("git", ["ls-files", "-z"], { cwd: root, encoding: "utf8" }).split("\0");
      const texts = tracked
        .filter((path) => path !== "" && existsSync(join(root, path)))
        .map((path) => ({ path, text: readFileSync(join(root, path), "utf8") }))
        .filter(({ text }) => !text.includes("\0"));
      expect(texts.flatMap(machineTraces)).toEqual([]);
    },
  );
});

function filesUnder(folder: string): string[] {
  if (!existsSync(join(root, folder))) return [];
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !/\/(dist|node_modules)(\/|$)/.test(entry.parentPath))
    .map((entry) => join(entry.parentPath, entry.name).slice(root.length).replaceAll("\\", "/"));
}
