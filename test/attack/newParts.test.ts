/**
 * Clumsy use of set-ups, checks, gaps and scans of a few lines: the words say what is wrong, and no number is surer than it can be.
 */
import { describe, expect, test } from "vitest";
import { makeBoard } from "../../data/make/board.ts";
import { examine } from "../../server/core/examine.ts";
import { readReadingsFile } from "../../server/core/readings/readReadingsFile.ts";
import { loadInstrumentTable } from "../../server/instrumentTable.ts";
import { type Kind, syntheticBoard } from "../support/syntheticBoards.ts";

const table = loadInstrumentTable();

function answerTo(csv: string) {
  return examine({
    readings: readReadingsFile(csv),
    thickness: null,
    rail: null,
    settings: [],
    table,
    version: "test",
  });
}

function faultWords(csv: string): string {
  const answer = answerTo(csv);
  return answer.outcome === "faulty" ? answer.faults.map(({ saw, remedy }) => `${saw}. ${remedy}`).join("\n") : "";
}

function examined(csv: string) {
  const answer = answerTo(csv);
  if (answer.outcome === "faulty") throw new Error(answer.faults[0]?.saw);
  return answer.examination;
}

/** Every row of a made board's list, as `change` has it. */
function withRows(csv: string, change: (x: string, line: string, height: number) => string): string {
  return csv
    .split("\n")
    .map((row) => {
      const [x, line, height] = row.split(",");
      return /^\d/.test(row) ? change(x!, line!, Number(height)) : row;
    })
    .join("\n");
}

const violin = "# instrument: violin\n# tension: on\n# build: solid\n";

/** A violin's board of radius 42 and a hollow of 0.6 mm, in the gauge's frame. */
function heightOf(xMm: number, yMm: number): number {
  const u = xMm / 270;
  return Math.sqrt(42 ** 2 - yMm ** 2) - 42 - 4 * 0.6 * u * (1 - u);
}

describe("heights with the wrong sign", () => {
  test.each<Kind>(["violin", "viola", "cello", "bass"])("of a whole %s are told as that", (kind) => {
    const { readingsCsv } = makeBoard(syntheticBoard(kind, "7 x 13", 9, true));
    expect(faultWords(withRows(readingsCsv, (x, line, height) => `${x},${line},${-height}`))).toContain(
      "is the sign right (`reads`)",
    );
    expect(answerTo(readingsCsv).outcome).toBe("examined");
  });

  test("are told as that in a quick look too, where nine would else pass for a bent neck", () => {
    const rowsOf = (sign: number) =>
      [30, 135, 240].flatMap((x) => [-8, 0, 8].map((y) => `${x},${y},${(sign * heightOf(x, y)).toFixed(3)}`));
    const csvOf = (sign: number) => `${violin}x,y,height\n${rowsOf(sign).join("\n")}\n`;
    expect(faultWords(csvOf(-1))).toContain("is the sign right (`reads`)");
    expect(answerTo(csvOf(1)).outcome).toBe("examined");
  });
});

test("lines of a quick look that each have a set-up of their own may lie as high as they will", () => {
  const rows = [-8, 0, 8].flatMap((y) =>
    [30, 80, 135, 190, 240].map((x) => `${x},${y},${(heightOf(x, y) + y * y * 0.05).toFixed(3)},line ${y}`),
  );
  const { verdict } = examined(`${violin}x,y,height,setup\n${rows.join("\n")}\n`);
  expect(verdict.reasons[0]?.says).toContain("Hollow");
});

describe("checks", () => {
  const { readingsCsv } = makeBoard(syntheticBoard("cello", "7 x 13", 3, true));
  const rows = withRows(readingsCsv, (x, line, height) => `${x},${line},${height},`).replace(
    "height\n",
    "height,mark\n",
  );
  const first = /^(\d.*,)$/m.exec(rows)?.[1] ?? "";

  test("at a place that was not read before are not passed over in silence", () => {
    const [, line, height] = first.split(",");
    const { cautions, readings } = examined(`${rows}33.3,${line},${height},check\n`);
    expect(readings.drift).toBeNull();
    expect(cautions.join("\n")).toContain("1 check stands where nothing was read before in the same set-up");
  });

  test("at a place that was read before raise no such caution", () => {
    const { cautions, readings } = examined(`${rows}${first}check\n`);
    expect(readings.drift?.checks).toBe(1);
    expect(cautions.join("\n")).not.toContain("where nothing was read before");
  });
});

test("leaves that are said to go in steps of nothing leave a hollow uncertain all the same", () => {
  const gaps = "line,x,gap\nG,36,0.32\nG,80,0.58\nG,135,0.70\nG,190,0.57\nG,240,0.30\n";
  const { surface } = examined(`${violin}# resolution: 0\n${gaps}`);
  // Steps of 0.01 mm, a rectangle of which the gap may lie anywhere above: 2 x 0.01/√3, and as much again where it rests.
  expect(surface.hollows[0]?.hollowMm.u).toBeGreaterThan(0.01);
});

test("a scan of three crosslines tells the gravest and sums up the others, instead of hundreds of lines", () => {
  const rows = Array.from({ length: 900 }, (_, k) => {
    const xMm = [20, 135, 250][k % 3]!;
    const yMm = (10.5 + xMm / 30) * (2 * ((k * 0.618034) % 1) - 1);
    return `${xMm},${yMm.toFixed(3)},${heightOf(xMm, yMm).toFixed(4)}`;
  });
  const { verdict } = examined(`${violin}x,y,height\n${rows.join("\n")}\n`);
  expect(verdict.reasons.length).toBeLessThan(25);
  expect(verdict.reasons.map(({ says }) => says).join("\n")).toMatch(/Of \d+ more that were looked at \d+ are out/);
});
