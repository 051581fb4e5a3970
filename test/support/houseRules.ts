/**
 * The rules of the house, as a function: one source file in, its breaches out, each as a sentence.
 *
 * Imports go one way. On the server:
 *   core:  maths < board < readings < compensation < surface < wear < planing < thickness < quick look < examine and the files beside it
 *          (units, fault and examination hold the words that all of core shares: any part may import them)
 *   then:  core < history < reports, records < files beside main < keeping < http < main, serve, command and commands
 * In the page: chart < views < api < pages < main; of the server the page knows types only.
 */
import { dirname, join } from "node:path/posix";
import { type Import, parseSource, type SourceFile } from "./parseSource.ts";

/** Every layer with the paths that belong to it; a file belongs to the first that fits. Lower ranks know nothing of higher ones. */
const layers: readonly { readonly name: string; readonly paths: RegExp; readonly rank: number }[] = [
  { name: "the shared words", paths: /^server\/core\/(units|fault|examination)\.ts$/, rank: 0 },
  { name: "maths", paths: /^server\/core\/maths\//, rank: 1 },
  { name: "board", paths: /^server\/core\/board\//, rank: 2 },
  { name: "readings", paths: /^server\/core\/readings\//, rank: 3 },
  { name: "compensation", paths: /^server\/core\/compensation\//, rank: 4 },
  { name: "surface", paths: /^server\/core\/surface\//, rank: 5 },
  { name: "wear", paths: /^server\/core\/wear\//, rank: 6 },
  { name: "planing", paths: /^server\/core\/planing\//, rank: 7 },
  { name: "thickness", paths: /^server\/core\/thickness\//, rank: 8 },
  { name: "quick look", paths: /^server\/core\/quickLook\//, rank: 9 },
  { name: "examine", paths: /^server\/core\/[^/]+$/, rank: 10 },
  { name: "history", paths: /^server\/core\/history\//, rank: 11 },
  {
    name: "main, command and serve",
    paths: /^server\/(main\.ts|command\.ts|serve\.ts|boardtrue\.mjs|commands\/.*)$/,
    rank: 16,
  },
  { name: "reports", paths: /^server\/reports\//, rank: 12 },
  { name: "records", paths: /^server\/records\//, rank: 12 },
  { name: "files beside main", paths: /^server\/[^/]+$/, rank: 13 },
  { name: "keeping", paths: /^server\/keeping\//, rank: 14 },
  { name: "http", paths: /^server\/http\//, rank: 15 },
  { name: "chart", paths: /^web\/chart\//, rank: 20 },
  { name: "views", paths: /^web\/views\//, rank: 21 },
  { name: "api", paths: /^web\/api\//, rank: 22 },
  { name: "pages", paths: /^web\/pages\//, rank: 23 },
  { name: "the page's main", paths: /^web\/main\.ts$/, rank: 24 },
];

/** Packages that only compute, which is all that core may lean on. */
const packagesOfCore = /^(@stdlib\/|ml-matrix$|simple-statistics$|papaparse$|d3(-|$)|zod$)/;
const impureNames = [
  "Date",
  "performance",
  "process",
  "document",
  "window",
  "globalThis",
  "fetch",
  "crypto",
  "console",
];
const impureTimers = ["setTimeout", "setInterval", "setImmediate", "queueMicrotask"];
const ofTheProcess = ["process.argv", "process.env", "process.exit", "process.exitCode"];
const waysOut = ["fetch", "XMLHttpRequest", "WebSocket", "EventSource"];
const database = /^(kysely|pg|@photostructure\/sqlite|node:sqlite)(\/|$)/;
const sql =
  /^\s*(select\s[\s\S]*\sfrom\s|insert\s+into\s|update\s+\S+\s+set\s|delete\s+from\s|(create|drop|alter)\s+(unique\s+)?(table|index|view)\s|pragma\s+\w+)/i;

export function breachesOf(file: SourceFile): string[] {
  const source = parseSource(file);
  const inCore = file.path.startsWith("server/core/");
  const inWeb = file.path.startsWith("web/");
  const breaches = source.imports.flatMap((one) => importBreaches(file.path, one));

  const opening = file.path.endsWith(".mjs") ? /^(#!.*\n)?\/[/*]/ : /^\/\*\*/;
  if (!opening.test(file.text)) breaches.push("does not open with a doc comment: what, why, in -> out");
  if (inCore) {
    for (const name of [...impureNames, ...impureTimers]) {
      if (source.globals.has(name)) breaches.push(`core is pure: uses ${name}`);
    }
    if (source.members.has("Math.random")) breaches.push("core is pure: uses Math.random");
  }
  if (!["server/main.ts", "server/command.ts"].includes(file.path)) {
    for (const member of ofTheProcess) {
      if (source.members.has(member)) breaches.push(`${member} belongs in server/main.ts and server/command.ts`);
    }
  }
  if (!file.path.startsWith("server/records/")) {
    const statement = source.texts.find((text) => sql.test(text));
    if (statement !== undefined) breaches.push(`SQL belongs in server/records: ${statement.trim().slice(0, 40)}`);
  }
  if (inWeb && !file.path.startsWith("web/api/")) {
    for (const name of waysOut) if (source.globals.has(name)) breaches.push(`${name} belongs in web/api`);
    if (source.members.has("window.fetch")) breaches.push("fetch belongs in web/api");
  }
  return breaches.map((breach) => `${file.path}: ${breach}`);
}

function importBreaches(path: string, { from, typeOnly }: Import): string[] {
  const inCore = path.startsWith("server/core/");
  if (!from.startsWith(".")) {
    const breaches: string[] = [];
    if (inCore && !packagesOfCore.test(from)) breaches.push(`core is pure: imports ${from}`);
    if (path.startsWith("web/") && from.startsWith("node:"))
      breaches.push(`the page runs in a browser: imports ${from}`);
    if (from === "node:process") breaches.push("node:process is not imported: main and command have the global");
    if (database.test(from) && !path.startsWith("server/records/")) breaches.push(`${from} belongs in server/records`);
    return breaches;
  }
  const target = join(dirname(path), from);
  if (!/\.(ts|mjs|json|css|svg)(\?\w+)?$/.test(target)) return [`imports ${from} without its ending`];
  if (/^(test|data\/make)\//.test(target)) return [`the program imports from ${dirname(target)}`];

  const [here, there] = [layerOf(path), layerOf(target)];
  if (path.startsWith("web/") && target.startsWith("server/")) {
    return typeOnly ? [] : [`the page takes only types (import type) from the server: ${target}`];
  }
  if (path.startsWith("server/") && target.startsWith("web/")) return [`the server imports from the page: ${target}`];
  if (here === undefined) return ["lies in no known layer: name it in test/support/houseRules.ts"];
  if (there === undefined || here.name === there.name) return [];
  if (here.rank === 0 && typeOnly && there.name === "board") return [];
  return there.rank < here.rank ? [] : [`imports go one way: ${here.name} imports ${there.name} (${target})`];
}

function layerOf(path: string): (typeof layers)[number] | undefined {
  return layers.find((layer) => layer.paths.test(path));
}

/** Names at the project's top that have no business there. Dot files and installed packages are left aside. */
export function strangersAtTheTop(names: readonly string[]): string[] {
  const welcome = new Set([
    ...["package.json", "package-lock.json", "tsconfig.json", "biome.json", "README.md", "DEVELOPERS.md", "LICENSE"],
    ...["server", "web", "data", "test", "node_modules"],
  ]);
  return names.filter((name) => !name.startsWith(".") && !welcome.has(name));
}

/** Registries by name or by their usual form; the pattern is written so that this file does not contain one. */
const registryHost = /\b(registry\.[a-z0-9-]+\.[a-z]+|[a-z0-9.-]*npm(?:js|mirror)\.[a-z]+|yarnpkg\.[a-z]+)\b/;
const machinePath = /(?<![\w.:/<-])\/(work|root|home|tmp|Users|mnt)\/\w/;

/** What ties a file to one machine: absolute paths and package registries. */
export function machineTraces({ path, text }: SourceFile): string[] {
  return [registryHost, machinePath].flatMap((pattern) => {
    const found = pattern.exec(text);
    if (found === null) return [];
    const line = text.slice(0, found.index).split("\n").length;
    return [`${path}, line ${line}: ${found[0]}`];
  });
}
