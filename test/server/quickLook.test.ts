/**
 * A quick look from end to end: the same file by the command and over a real connection, and what it says in words.
 */
import { spawn } from "node:child_process";
import { tmpdir } from "node:os";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import type { Examination } from "../../server/core/examination.ts";
import { examinerFor } from "../../server/examiner.ts";
import { examinationSchema } from "../../server/http/wire/examination.ts";
import { loadInstrumentTable } from "../../server/instrumentTable.ts";
import { plainText } from "../../server/reports/plainText.ts";
import { verdictLine } from "../../server/reports/verdictLine.ts";
import { examineFiles } from "../support/examineMade.ts";
import { fifteenHeights, gapsFile } from "../support/quickLookFiles.ts";
import { formOf, type ServerUnderTest, startServer } from "./http/serverUnderTest.ts";

const bin = fileURLToPath(new URL("../../server/boardtrue.mjs", import.meta.url));
/** Of an edge of 5.2 mm and a centre of 6 mm: well above every limit. */
const thickness = "x,side,thickness\n20,bass,5.2\n20,treble,5.2\n";

vi.setConfig({ testTimeout: 60_000 });

let server: ServerUnderTest;
beforeAll(async () => {
  const apart = examinerFor(loadInstrumentTable(), "test");
  server = await startServer({ startExamining: apart });
});
afterAll(() => server.stop());

async function byCommand(csv: string): Promise<string> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [bin, "examine", "-", "--json"], { cwd: tmpdir() });
    let said = "";
    child.stdout.on("data", (chunk) => {
      said += chunk;
    });
    child.on("error", reject);
    child.on("close", (status) => (status === 0 ? resolve(said) : reject(new Error(`exit ${status}`))));
    child.stdin.end(csv);
  });
}

async function overHttp(csv: string): Promise<Examination> {
  const response = await fetch(`${server.url}/api/examinations`, {
    method: "POST",
    body: formOf({ readings: csv }),
  });
  expect(response.status).toBe(200);
  return response.json();
}

describe.each([
  ["gaps", gapsFile(0.5)],
  ["fifteen heights", fifteenHeights()],
])("a file of %s", (_, csv) => {
  test("is taken by the command and over HTTP, and both say the same", async () => {
    const [said, sent] = await Promise.all([byCommand(csv), overHttp(csv)]);
    expect(examinationSchema.parse(sent)).toEqual(sent);
    const { version: _ofCommand, ...fromCommand } = JSON.parse(said);
    const { version: _ofServer, ...fromServer } = sent;
    expect(fromCommand).toEqual(fromServer);
  });

  test("decides nothing about wood, and maps nothing", () => {
    const { verdict, planing, maps, wornPlaces, deepest, profiles, sections } = examineFiles(csv, thickness);
    expect(verdict.decision).toBe("undecided");
    expect([planing, maps, deepest]).toEqual([null, null, null]);
    expect([wornPlaces, profiles, sections]).toEqual([[], [], []]);
  });

  test("is told in words: the answer first, every hollow and radius with its limit and where that is from", () => {
    const examination = examineFiles(csv, thickness);
    const text = plainText(examination);
    expect(text.split("\n").every((line) => line.length <= 80)).toBe(true);
    expect(text).toMatch(/^(Sound where looked|Dressing likely|Survey fully): /);
    expect(text).not.toMatch(/Deepest place|Least wood/);
    const { reasons } = examination.verdict;
    for (const { code, valueMm, u, limitMm, origin } of reasons.filter(({ code }) => /hollow|camber/.test(code))) {
      expect([typeof valueMm, typeof u, typeof limitMm, typeof origin], code).toEqual([
        ...["number", "number", "number", "string"],
      ]);
    }
    expect(reasons.filter(({ code }) => code === "hollow").length).toBeGreaterThanOrEqual(2);
    expect(reasons.filter(({ code }) => code === "camber").length).toBeGreaterThanOrEqual(2);
    expect(verdictLine(examination)).toMatch(/^quick look: (sound where looked|survey fully); /);
  });
});

describe("the three answers from gaps", () => {
  const fine = "# resolution: 0.01\n";
  const answerTo = (csv: string) => examineFiles(csv, null).verdict;

  test("with leaves in steps of 0.01, all in its range: sound where looked", () => {
    const { quickLook, nextReading, wouldChange } = answerTo(fine + gapsFile(0.5));
    expect(quickLook).toBe("sound where looked");
    expect(nextReading).toBeNull();
    expect(wouldChange.map(({ what, decision }) => [what, decision])).toEqual([["readings", "leave"]]);
  });

  test("with a hollow of 0.8 where 0.5 ± 0.1 is wanted: dressing likely", () => {
    const { quickLook, nextReading, reasons, wouldChange } = answerTo(gapsFile(0.8));
    expect(quickLook).toBe("dressing likely");
    expect(reasons[0]?.says).toBe("Hollow under the E string: too much.");
    expect([reasons[0]?.valueMm, reasons[0]?.limitMm]).toEqual([0.8, expect.closeTo(0.6, 9)]);
    expect(nextReading).toBeNull();
    expect(wouldChange.map(({ decision }) => decision)).toEqual(["dress"]);
  });

  test("with a hollow of 0.58, too near its limit of 0.6: survey fully, or measure that gap again", () => {
    const { quickLook, nextReading, wouldChange } = answerTo(gapsFile(0.58));
    expect(quickLook).toBe("survey fully");
    expect(nextReading?.what).toBe("gap");
    expect(nextReading?.xMm).toBeCloseTo(135, 6);
    expect(wouldChange.map(({ decision }) => decision)).toEqual(["leave", "dress"]);
  });

  test("humped along both strings: the cause comes first", () => {
    const humps = gapsFile(0.5)
      .split("\n")
      .filter((line) => !/^[GE],/.test(line));
    const rocking = ["G", "E"].flatMap((s) =>
      [0, 68, 135, 202, 270].map((x, i) => `${s},${x},,${Math.abs(i - 2) / 4},`),
    );
    const { quickLook, reasons } = answerTo([...humps.filter((line) => line !== ""), ...rocking].join("\n"));
    expect(quickLook).toBe("survey fully");
    expect(reasons[0]?.code).toBe("bent");
  });

  test("a loose board is told first", () => {
    const { quickLook, reasons } = answerTo(`# loose: yes\n${gapsFile(0.5)}`);
    expect([quickLook, reasons[0]?.code]).toEqual(["survey fully", "loose"]);
  });

  test("a template that shows light at its edges only says on which side the board is", () => {
    const twoGaps = (gap: string) =>
      `# instrument: violin\n# radius_nut: 42\n# radius_end: 42\n# tension: on\nx,y,gap,template\n20,-10,${gap}\n20,10,${gap}\n`;
    const rounder = answerTo(twoGaps("0.2,40"));
    expect(rounder.reasons[0]?.says).toContain("rounder than the template of radius 40 mm");
    // 40 is rounder than the 40.5 that would still be right, and the board is rounder still.
    expect(rounder.quickLook).toBe("dressing likely");
    expect(answerTo(twoGaps("0.2,42")).quickLook).toBe("survey fully");
  });

  test("one gap of 0 under a template tells nothing, and is told what would", () => {
    const csv = "# instrument: violin\nx,y,gap,template\n20,0,0,42\n";
    expect(() => examineFiles(csv, null)).toThrow(/1 gap under a template.*three gaps across/);
  });

  test("thickness that is under its limit already is said, and no cut", () => {
    const examination = examineFiles(gapsFile(0.8), "x,side,thickness\n20,bass,3\n20,treble,3\n");
    const told = examination.verdict.reasons.find(({ code }) => code === "thickness-before");
    expect(told?.says).toContain("already under the limit");
    expect(examination.thickness?.places.every(({ afterMm }) => afterMm === null)).toBe(true);
    expect(plainText(examination)).toContain("0 dressings left in it today");
  });
});

describe("few heights", () => {
  const heights = fifteenHeights();
  const [head = "", body = ""] = heights.split(/(?<=x,line,height\n)/);
  const only = (keep: RegExp) =>
    head +
    body
      .split("\n")
      .filter((row) => keep.test(row))
      .join("\n");

  test("fifteen: a hollow under every string, a radius everywhere, and what was taken for granted", () => {
    const { readings, surface, points } = examineFiles(heights, null);
    expect(readings.enoughFor).toEqual(["hollow", "camber"]);
    expect(surface.hollows.map(({ string }) => string)).toEqual(["G", "D", "A", "E"]);
    expect(Object.values(surface.camberRadiusMm).every((radius) => radius !== null)).toBe(true);
    expect(surface.assumed.length).toBeGreaterThan(0);
    expect(points.length).toBe(15);
  });

  test("one line: its hollow alone", () => {
    const { readings, surface } = examineFiles(only(/,G,/), null);
    expect(readings.enoughFor).toEqual(["hollow"]);
    expect(surface.hollows.map(({ string }) => string)).toEqual(["G"]);
    expect(surface.camberRadiusMm).toEqual({ nut: null, middle: null, end: null });
    expect(surface.twistMm).toBeNull();
  });

  test("one crossline: its radius alone", () => {
    const { readings, surface } = examineFiles(only(/^135,/), null);
    expect(readings.enoughFor).toEqual(["camber"]);
    expect(surface.hollows).toEqual([]);
    expect(surface.camberRadiusMm.nut).toBeNull();
    const { value, u } = surface.camberRadiusMm.middle ?? { value: 0, u: 0 };
    // The generator's board has 42 give or take 0.5 there.
    expect(Math.abs(value - 42)).toBeLessThan(u + 0.5);
  });

  test("an open hollow names the one height more that narrows it most, on the board", () => {
    const close = heights.replace("hollow_lowest: 0.7", "hollow_lowest: 0.62");
    const { verdict, instrument } = examineFiles(close, null);
    expect(verdict.quickLook).toBe("survey fully");
    const next = verdict.nextReading;
    expect(next?.what).toBe("height");
    expect(next?.says).toMatch(/narrows the (hollow|radius) .* from ± [\d.]+ mm to about ± [\d.]+ mm\.$/);
    expect(next !== null && next.xMm > 0 && next.xMm < instrument.boardLengthMm.value).toBe(true);
  });

  test("a place marked as the lowest near there leaves hollow and radius alone, and is told as worn", () => {
    const rows = body.trim().split("\n");
    const low = Number(/^135,G,([\d.]+)$/m.exec(body)?.[1]) - 0.4;
    const plain = examineFiles(heights, null);
    const pit = `135,G,${low.toFixed(2)},lowest near here`;
    const marked = [head.replace("height\n", "height,mark"), pit, ...rows.map((row) => `${row},`)].join("\n");
    const { surface, verdict } = examineFiles(`${marked}\n`, null);
    expect(surface).toEqual(plain.surface);
    expect(verdict.reasons.find(({ code }) => code === "wear")?.valueMm).toBeGreaterThan(0.3);
  });

  test("a set-up for each line, which nothing ties together: the hollow of each by itself, and no camber", () => {
    const rows = body.trim().split("\n");
    const liftedMm: Readonly<Record<string, number>> = { G: 0, centre: 3, E: -2 };
    const apart = rows.map((row) => {
      const [x, line = "", height] = row.split(",");
      return `${x},${line},${(Number(height) + (liftedMm[line] ?? 0)).toFixed(2)},${line}`;
    });
    const { readings, surface } = examineFiles(`${head.replace("height", "height,setup")}${apart.join("\n")}\n`, null);
    expect(readings.enoughFor).toEqual(["hollow"]);
    expect(surface.hollows.map(({ string }) => string)).toEqual(["G", "E"]);
    const together = examineFiles(heights, null).surface.hollows;
    for (const { string, hollowMm } of surface.hollows) {
      const whole = together.find((one) => one.string === string)!.hollowMm;
      expect(Math.abs(hollowMm.value - whole.value)).toBeLessThan(hollowMm.u + whole.u);
    }
  });

  test("a line scanned at 5,000 places tells its hollow in less than five seconds", () => {
    const scan = Array.from({ length: 5_000 }, (_, i) => {
      const u = (i + 1) / 5_001;
      return `${(270 * u).toFixed(3)},G,${(8 - 0.7 * 4 * u * (1 - u) + 0.005 * Math.sin(i * i)).toFixed(4)}`;
    });
    const begun = performance.now();
    const { surface } = examineFiles(`${head}${scan.join("\n")}\n`, null);
    // A fifth of a second alone; the machine may do much else.
    expect(performance.now() - begun).toBeLessThan(5_000);
    const { value, u } = surface.hollows[0]!.hollowMm;
    expect(Math.abs(value - 0.7)).toBeLessThan(u);
  });

  test("with the board's own shape as the aim, hollow and radius are told but not judged", () => {
    const { verdict } = examineFiles(heights.replace("# resolution", "# aim: own\n# resolution"), null);
    const hollow = verdict.reasons.find(({ code }) => code === "hollow");
    expect([hollow?.limitMm, hollow?.origin]).toEqual([null, null]);
  });
});
