/** The command as a workshop calls it: run as a program of its own, from files and standard input. */
import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import manifest from "../../package.json" with { type: "json" };
import { examinationSchema } from "../../server/http/wire/examination.ts";
import { plainText } from "../../server/reports/plainText.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const bin = join(root, "server", "boardtrue.mjs");
const readings = join(root, "data", "examples", "cello-to-dress.csv");
const thickness = join(root, "data", "examples", "cello-to-dress.thickness.csv");

// Each call starts a program of its own: half a second alone, several on a machine that does much else.
vi.setConfig({ testTimeout: 60_000 });

type Ran = { readonly status: number | null; readonly said: string; readonly complained: string };

/** Runs the command in a folder that is not the project's; `readOnly` closes its output after so many bytes. */
function boardtrue(words: readonly string[], { stdin = "", readOnly = Number.POSITIVE_INFINITY } = {}): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [bin, ...words], { cwd: tmpdir() });
    let said = "";
    let complained = "";
    child.stdout.on("data", (chunk) => {
      said += chunk;
      if (said.length >= readOnly) child.stdout.destroy();
    });
    child.stderr.on("data", (chunk) => {
      complained += chunk;
    });
    child.on("error", reject);
    child.on("close", (status) => resolve({ status, said, complained }));
    child.stdin.on("error", () => undefined);
    child.stdin.end(stdin);
  });
}

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "boardtrue-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

describe("examine", () => {
  test("prints in words what --json holds, and nothing on standard error", async () => {
    const call = ["examine", readings, "--thickness", thickness];
    const [words, json] = await Promise.all([boardtrue(call), boardtrue([...call, "--json"])]);
    expect(words.complained).toBe("");
    expect(words.status).toBe(0);
    expect(words.said).toBe(plainText(JSON.parse(json.said)));
  });

  test("prints the whole examination as JSON, from standard input as from the file", async () => {
    const [fromFile, fromInput] = await Promise.all([
      boardtrue(["examine", readings, "--json"]),
      boardtrue(["examine", "-", "--json"], { stdin: readFileSync(readings, "utf8") }),
    ]);
    const examination = JSON.parse(fromFile.said);
    expect(examinationSchema.parse(examination)).toEqual(examination);
    expect(examination.version).toBe(manifest.version);
    expect(examination.points.length).toBe(examination.readings.count);
    expect(fromInput.said).toBe(fromFile.said);
  });

  test("leaves the points out where they are not wanted", async () => {
    const { said } = await boardtrue(["examine", readings, "--json", "--no-points"]);
    expect(JSON.parse(said).points).toEqual([]);
  });

  test("lets --instrument and --set win over the file, a later one over an earlier", async () => {
    const { said } = await boardtrue([
      "examine",
      readings,
      "--json",
      "--instrument",
      "cello",
      "--set",
      "edge_limit=4",
      "--set",
      "edge_limit = 4,5",
    ]);
    expect(JSON.parse(said).instrument.edgeLimitMm).toMatchObject({ value: 4.5, source: "given" });
  });

  test("ends quietly where the reader of its answer has read enough", async () => {
    const { status, complained } = await boardtrue(["examine", readings, "--json"], { readOnly: 1 });
    expect(complained).toBe("");
    expect(status).toBe(0);
  });
});

describe("faults in what was given", () => {
  test("are told one a line on standard error, with exit 1 and no answer", async () => {
    const path = join(folder, "slips.csv");
    writeFileSync(path, "# instrument: cello\nx,y,height\n10,0,O.45\n20,0,1.1\n30,0,one\n");
    const { status, said, complained } = await boardtrue(["examine", path]);
    expect(said).toBe("");
    expect(status).toBe(1);
    const lines = complained.trimEnd().split("\n");
    expect(lines.filter((line) => line.includes("line 3, column 3"))).toHaveLength(1);
    expect(lines.filter((line) => line.includes("line 5, column 3"))).toHaveLength(1);
    for (const line of lines) expect(line).toMatch(/^(readings|settings)/);
  });

  test("stay on one line and move no cursor, whatever a setting holds", async () => {
    const { status, complained } = await boardtrue(["examine", readings, "--set", "tip_radius=a\nb\u001b[2J"]);
    expect(status).toBe(1);
    expect(complained.trimEnd().split("\n")).toHaveLength(1);
    expect(complained).not.toContain("\u001b");
  });

  test("of a key name the nearest known one", async () => {
    const { status, complained } = await boardtrue(["examine", readings, "--set", "tip_radios=1"]);
    expect(status).toBe(1);
    expect(complained).toContain("`tip_radius`");
  });

  test.each([
    ["a file that is not there", "no-such.csv", /there is no such file/],
    ["a folder", ".", /this is a folder/],
    ["an empty file", "empty.csv", /^readings/],
  ])("%s", async (_what, name, words) => {
    writeFileSync(join(folder, "empty.csv"), "");
    const { status, said, complained } = await boardtrue(["examine", join(folder, name), "--instrument", "cello"]);
    expect(status).toBe(1);
    expect(said).toBe("");
    expect(complained).toMatch(words);
    expect(complained).not.toMatch(/Error|at .*\.ts/);
  });
});

describe("a wrong call", () => {
  test.each([
    ["no task", [], /Say what to do/],
    ["an unknown task", ["measure"], /"measure" is not known/],
    ["no readings", ["examine"], /needs the readings/],
    ["two files of readings", ["examine", "a.csv", "b.csv"], /one file of readings/],
    ["an unknown option", ["examine", "a.csv", "--loud"], /--loud/],
    ["an option without its value", ["examine", "a.csv", "--instrument"], /--instrument/],
    ["a setting without =", ["examine", "a.csv", "--set", "tip_radius"], /key=value/],
    ["a setting without a key", ["examine", "a.csv", "--set", "=1"], /key=value/],
    ["--no-points without --json", ["examine", "a.csv", "--no-points"], /goes with --json/],
    ["standard input twice", ["examine", "-", "--thickness", "-"], /Only one/],
    ["a grid of no readings", ["grid", "--instrument", "cello", "--readings", "0"], /whole number/],
    ["a grid of many million readings", ["grid", "--instrument", "cello", "--readings", "99999999"], /whole number/],
    ["a rail without its survey", ["rail"], /needs the survey/],
    ["two surveys of a rail", ["rail", "a.csv", "b.csv"], /one file/],
    ["a rail with an option of examine", ["rail", "a.csv", "--json"], /--json/],
    ["serve with more words", ["serve", "--port", "80"], /PORT/],
  ])("%s: exit 2, and where to look", async (_what, words, complaint) => {
    const { status, said, complained } = await boardtrue(words);
    expect(status).toBe(2);
    expect(said).toBe("");
    expect(complained).toMatch(complaint);
    expect(complained).toContain("boardtrue help");
    expect(complained).not.toMatch(/at .*\.ts/);
  });
});

describe("rail", () => {
  /** Over a glass: a rail that sags by 0.1 mm in the middle of 600. */
  const sagMm = (x: number) => (-0.1 * 4 * x * (600 - x)) / 600 ** 2;
  const survey = `x,height\n${[...Array(13).keys()].map((i) => `${50 * i},${(3 + sagMm(50 * i)).toFixed(4)}\n`).join("")}`;

  test("prints a profile that examine takes", async () => {
    const { status, said, complained } = await boardtrue(["rail", "-"], { stdin: survey });
    expect([status, complained]).toEqual([0, ""]);
    expect(said).toMatch(/^# Rail error profile from 13 readings at 13 places, in 1 set-up\n/);
    const rows = said.split("\n").filter((line) => line !== "" && !line.startsWith("#"));
    expect(rows).toHaveLength(1 + 13);
    expect(rows[0]).toBe("x,error,u");
    // Deepest in the middle, and as far below the ends as the rail sags.
    expect(Number(rows[1]!.split(",")[1]) - Number(rows[7]!.split(",")[1])).toBeCloseTo(0.1, 4);

    writeFileSync(join(folder, "rail.csv"), said);
    const call = ["examine", readings, "--json", "--no-points"];
    const [without, corrected] = await Promise.all([
      boardtrue(call),
      boardtrue([...call, "--set", `rail_error=${join(folder, "rail.csv")}`]),
    ]);
    const hollowOf = (ran: Ran): number => JSON.parse(ran.said).surface.hollows[0].hollowMm.value;
    // A board of 580 mm lies over most of the rail's sag: the rail hid nearly all of it the other way.
    expect(hollowOf(corrected)).toBeLessThan(hollowOf(without) - 0.08);
  });

  test("has the profile that a readings file names looked for beside that file", async () => {
    const { said: profile } = await boardtrue(["rail", "-"], { stdin: survey });
    writeFileSync(join(folder, "beside.csv"), profile);
    const named = join(folder, "named.csv");
    writeFileSync(named, `# rail error: beside.csv\n${readFileSync(readings, "utf8")}`);
    const [inFile, missing, outside] = await Promise.all([
      boardtrue(["examine", named, "--json"]),
      boardtrue(["examine", named, "--set", "rail_error=beside.csv"]),
      boardtrue(["examine", readings, "--json", "--set", `rail_error=${join(folder, "beside.csv")}`]),
    ]);
    expect(inFile.status).toBe(0);
    expect(JSON.parse(inFile.said).surface).toEqual(JSON.parse(outside.said).surface);
    // Named on the command line it is looked for in the working folder, and is not there.
    expect([missing.status, missing.said]).toEqual([1, ""]);
    expect(missing.complained).toMatch(/^beside\.csv: there is no such file/);
  });

  test("tells faults of the survey, and of the profile, a line each", async () => {
    const short = await boardtrue(["rail", "-"], { stdin: "x,height\n0,1\n10,x\n" });
    expect([short.status, short.said]).toEqual([1, ""]);
    expect(short.complained).toMatch(/^readings, line 3, column 2: "x"\. [^\n]*\n$/);
    writeFileSync(join(folder, "twice.csv"), "x,error\n0,0\n0,1\n");
    const twice = await boardtrue(["examine", readings, "--set", `rail_error=${join(folder, "twice.csv")}`]);
    expect(twice.status).toBe(1);
    expect(twice.complained).toMatch(/^rail, line 3, column 1: x 0 mm a second time/);
  });

  test("never reads a device, which has no end, for a profile", async () => {
    const { status, complained } = await boardtrue(["examine", readings, "--set", "rail_error=/dev/zero"]);
    expect([status, complained]).toEqual([1, "/dev/zero: this is no file. Name a CSV file.\n"]);
  });
});

describe("grid", () => {
  test("prints an empty grid that the reader of readings knows again", async () => {
    const { status, said } = await boardtrue(["grid", "--instrument", "cello"]);
    expect(status).toBe(0);
    const rows = said
      .trimEnd()
      .split("\n")
      .filter((line) => !line.startsWith("#"));
    expect(rows[0]).toMatch(/^x,C,C\/G,G/);
    expect(rows).toHaveLength(1 + 11);
    const again = await boardtrue(["examine", "-"], { stdin: said });
    expect(again.status).toBe(1);
    expect(again.complained).toMatch(/^readings: .*no readings under it[^\n]*\n$/);
  });

  test("needs an instrument that the table has", async () => {
    expect(await boardtrue(["grid"])).toMatchObject({ status: 1, said: "" });
    const { status, complained } = await boardtrue(["grid", "--instrument", "lute"]);
    expect(status).toBe(1);
    expect(complained).toContain("violin 4/4");
  });
});

test("help and version go to standard output", async () => {
  const [help, dashes, version] = await Promise.all([
    boardtrue(["help"]),
    boardtrue(["--help"]),
    boardtrue(["version"]),
  ]);
  expect(help.said).toContain("boardtrue examine READINGS.csv");
  for (const line of help.said.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  expect(dashes.said).toBe(help.said);
  expect(version.said).toBe(`${manifest.version}\n`);
});
