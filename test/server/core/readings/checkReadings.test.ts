/**
 * Every small file of the table, and what holds for all of them: however the bytes arrive and the lines end, the same answer.
 */
import { describe, expect, test } from "vitest";
import { readSettings } from "../../../../server/core/board/readSettings.ts";
import { linePath } from "../../../../server/core/board/stringPaths.ts";
import { seededRandom } from "../../../../server/core/maths/seededRandom.ts";
import { type CheckedReadings, checkReadings } from "../../../../server/core/readings/checkReadings.ts";
import { readingsFileReader, readReadingsFile } from "../../../../server/core/readings/readReadingsFile.ts";
import { allNear, near } from "../../../support/near.ts";
import { type ExpectedReading, type ReadingsCase, readingsCases } from "./readingsCases.ts";
import { checkFile, instrumentOf, readingsFromText, settingsOf } from "./readingsFromText.ts";

const cello = instrumentOf(settingsOf([{ key: "instrument", value: "cello", where: "settings", line: null }]));

/** Products of a reading and its unit: a few roundings of double precision at 300 mm. */
const roundingMm = 1e-12;

describe("a readings file", () => {
  test.each(readingsCases.map((one) => [one.rule, one] as const))("%s", (_, one) => {
    const checked = readingsFromText(one.text);
    if ("faults" in one) expectFaults(checked, one);
    else expectReadings(checked, one.gives, one.text);
  });

  test("has at least 150 cases, each with a rule of its own", () => {
    expect(readingsCases.length).toBeGreaterThanOrEqual(150);
    expect(new Set(readingsCases.map(({ rule }) => rule)).size).toBe(readingsCases.length);
  });
});

describe("the answer is the same", () => {
  const bytesOf = (text: string) => new TextEncoder().encode(text);
  // Endless lines, byte by byte, only cost time here; their own test is below.
  const short = readingsCases.filter(({ text }) => text.length < 1_000);

  test.each([1, 2, 3, 7])("when the file comes in pieces of %i bytes", (size) => {
    for (const { rule, text } of short) {
      const reader = readingsFileReader();
      const bytes = bytesOf(text);
      for (let from = 0; from < bytes.length; from += size) reader.push(bytes.subarray(from, from + size));
      expect(checkFile(reader.finish()), rule).toEqual(readingsFromText(text));
    }
  });

  test("when an endless line comes in pieces", () => {
    const reader = readingsFileReader();
    const text = bytesOf(`x,y,height\n${"9".repeat(300_000)}\n10,0,0.45\n`);
    for (let from = 0; from < text.length; from += 999) reader.push(text.subarray(from, from + 999));
    expect(reader.finish().faults.map(({ line, code }) => [line, code])).toEqual([[2, "line-too-long"]]);
  });

  test.each([
    ["CR LF", "\r\n"],
    ["a lone CR", "\r"],
  ])("when lines end with %s", (_, lineEnd) => {
    for (const { rule, text } of short.filter((one) => !one.text.includes("\r"))) {
      expect(readingsFromText(text.replaceAll("\n", lineEnd)), rule).toEqual(readingsFromText(text));
    }
  });

  test("when a byte order mark stands at the beginning", () => {
    const marked = short.filter(
      ({ text }) => !text.startsWith("\uFEFF") && !text.startsWith("PK") && !text.startsWith("%"),
    );
    for (const { rule, text } of marked)
      expect(readingsFromText(`\uFEFF${text}`), rule).toEqual(readingsFromText(text));
  });

  test.each([
    ["semicolons", ";"],
    ["tabs", "\t"],
  ])("when %s separate the cells instead of commas", (_, delimiter) => {
    for (const { rule, text } of short.filter((one) => "gives" in one && !/[";\t]/.test(one.text))) {
      const lines = text.split("\n").map((line) => (line.startsWith("#") ? line : line.replaceAll(",", delimiter)));
      expect(readingsFromText(lines.join("\n")), rule).toEqual(readingsFromText(text));
    }
  });

  test("when a blank line follows", () => {
    for (const { rule, text } of short) expect(readingsFromText(`${text}\n\n`), rule).toEqual(readingsFromText(text));
  });
});

describe("every fault", () => {
  const faults = readingsCases.flatMap(({ rule, text }) => {
    const checked = readingsFromText(text);
    return checked.outcome === "faulty" ? checked.faults.map((fault) => ({ rule, fault })) : [];
  });

  test("says what to do about it", () => {
    const deeds =
      /^(Add|Convert|Correct|Give|Head|Is|Keep|Let|Move|One file|Put|Remove|Save|Separate|Set|Write|A list|A grid|A spreadsheet|A letter|The commas|Lines|Commas|This version|No length)\b/;
    for (const { rule, fault } of faults) {
      expect(fault.remedy, rule).toMatch(deeds);
      expect(fault.remedy.length, rule).toBeGreaterThan(20);
      expect(fault.remedy, rule).toMatch(/[.?)]$/);
    }
  });

  test("shows what it saw in one short line that can be printed safely", () => {
    for (const { rule, fault } of faults) {
      expect(fault.saw, rule).not.toMatch(/[\p{Cc}\p{Zl}\p{Zp}]/u);
      expect(fault.saw.length, rule).toBeGreaterThan(2);
      expect(fault.saw.length, rule).toBeLessThan(160);
    }
  });

  test("is listed up to fifty; the rest are counted", () => {
    const checked = readingsFromText(`x,y,height\n${"10,0,a\n".repeat(30)}${"300,0,0.45\n".repeat(40)}`);
    const listed = checked.outcome === "faulty" ? checked.faults : [];
    expect(listed.length).toBe(51);
    expect(listed[49]).toMatchObject({ line: 51, code: "off-the-board" });
    expect(listed[50]).toMatchObject({
      line: null,
      column: null,
      code: "more-faults",
      saw: "20 more faults, not listed",
    });
  });

  test("is counted when the text alone has more than fifty", () => {
    const { faults: listed } = readReadingsFile(`x,y,height\n${"10,0,a\n".repeat(51)}`);
    expect(listed.map(({ code }) => code).slice(49)).toEqual(["not-a-number", "more-faults"]);
    expect(listed[50]!.saw).toBe("1 more fault, not listed");
  });

  test("is counted once, whether the text or the place is at fault", () => {
    const checked = readingsFromText(`x,y,height\n${"10,0,a\n".repeat(60)}${"300,0,0.45\n".repeat(3)}`);
    expect(checked.outcome === "faulty" && checked.faults.at(-1)!.saw).toBe("13 more faults, not listed");
  });

  test("leaves nothing of the file in use", () => {
    expect(readingsFromText("x,y,height\n10,0,0.45\n20,0,a")).not.toHaveProperty("readings");
  });
});

describe("bytes that are no UTF-8 text", () => {
  const utf16 = (text: string) => new Uint8Array(Uint16Array.from(text, (letter) => letter.charCodeAt(0)).buffer);

  test.each([
    ["UTF-16 with its mark", utf16("\uFEFFx,y,height\n10,0,0.45\n")],
    ["UTF-16 the other way round", utf16("\uFEFFx,y,height\n").map((_, i, bytes) => bytes[i ^ 1]!)],
    ["UTF-16 without its mark", utf16("x,y,height\n10,0,0.45\n")],
    ["nothing but NUL", new Uint8Array(40)],
  ])("%s are told in one fault", (_, bytes) => {
    expect(readReadingsFile(bytes).faults.map(({ line, code }) => [line, code])).toEqual([[null, "not-text"]]);
  });

  test("a Latin-1 letter in a cell is told at the cell, in a remark it does no harm", () => {
    // 0xB5 is the micro sign in Latin-1; alone it is no UTF-8.
    const bytes = new TextEncoder().encode("# ~\nx,y,height\n10,0,450~\n").map((byte) => (byte === 0x7e ? 0xb5 : byte));
    expect(readReadingsFile(bytes).faults.map(({ line, column, code }) => [line, column, code])).toEqual([
      [3, 3, "not-utf8"],
    ]);
  });
});

describe("units", () => {
  const settings = settingsOf([]);
  const violin = instrumentOf(settings);
  const rows = [
    [10, -5, 0.45],
    [33.3, 7.25, -1.234],
    [269.9, 20.5, 0.001],
  ] as const;

  test.each([
    ["0.01mm", 0.01],
    ["in", 25.4],
    ["thou", 0.0254],
  ] as const)("heights and places in %s say the same as in mm", (unit, unitMm) => {
    const text = ["x,y,height", ...rows.map((row) => row.map((mm) => mm / unitMm).join(","))].join("\n");
    const gauge = { ...settings.gauge, unitMm, placeUnitMm: unitMm };
    const bySetting = numbersOf(checkReadings(readReadingsFile(text), violin, gauge));
    const headed = text.replace("x,y,height", `x (${unit}),y (${unit}),height (${unit})`);
    const byHeading = numbersOf(checkReadings(readReadingsFile(headed), violin, settings.gauge));
    // One division and one multiplication, each rounded to double precision, at 270 mm.
    allNear(bySetting, rows.flat(), 1e-12, "by setting");
    expect(byHeading).toEqual(bySetting);
  });

  test("a unit from the form contradicts another in the heading; mm there is as good as silence", () => {
    const file = readReadingsFile("x,y,height_in\n10,-5,0.02\n");
    const inThou = checkReadings(file, violin, { ...settings.gauge, unitMm: 0.0254 });
    expect(inThou.outcome === "faulty" && inThou.faults.map(({ line, column, code }) => [line, column, code])).toEqual([
      [1, 3, "unit-contradicts"],
    ]);
    allNear(numbersOf(checkReadings(file, violin, { ...settings.gauge, unitMm: 1 })), [10, -5, 0.508], roundingMm);
  });

  test("turning depth into height and changing the unit may come in either order", () => {
    const depthInMm = readingsFromText("# reads: depth\nx,y,depth\n10,0,0.508\n");
    const depthInThou = readingsFromText("# reads: depth\n# unit: thou\nx,y,depth\n10,0,20\n");
    allNear(numbersOf(depthInThou), numbersOf(depthInMm), roundingMm);
  });
});

test("whatever a file holds, it is answered: with readings, or with faults on lines that it has", () => {
  const random = seededRandom(20261124);
  const sound = new TextEncoder().encode(
    '# instrument: cello\r\n# unit: mm\nx;C;C/G;0\n10;0,1;0.2;\n20;"0,1";;0,3 mm\n\n400;1;2;3\n',
  );
  for (let round = 0; round < 500; round++) {
    const bytes = Uint8Array.from(sound);
    const spoilt = 1 + Math.floor(random.uniform() * 6);
    for (let i = 0; i < spoilt; i++) {
      bytes[Math.floor(random.uniform() * bytes.length)] =
        oftenUpsetting[Math.floor(random.uniform() * oftenUpsetting.length)]!;
    }
    const file = readReadingsFile(bytes);
    const read = readSettings(file.entries);
    const checked =
      read.outcome === "read" ? checkReadings(file, cello, read.settings.gauge) : { ...read, faults: file.faults };
    if (checked.outcome === "checked") expect(checked.readings.readings.length).toBeGreaterThan(0);
    for (const { line } of checked.outcome === "faulty" ? checked.faults : []) {
      expect(line === null || (line >= 1 && line <= bytes.length)).toBe(true);
    }
  }
});

/** Quotes, line ends, delimiters, signs, half a character, NUL, letters and digits. */
const oftenUpsetting = [0x22, 0x0a, 0x0d, 0x2c, 0x3b, 0x09, 0x23, 0x2d, 0x2e, 0xc3, 0x00, 0x4f, 0x65, 0x39] as const;

test("two hundred thousand readings are read and checked in two seconds of the processor's time", () => {
  const encoder = new TextEncoder();
  const rows = Array.from({ length: 200_000 }, (_, i) => `${(i % 540) / 2};${(i % 23) - 11};0,${i % 100}\n`);
  const reader = readingsFileReader();
  const begun = process.cpuUsage();
  reader.push(encoder.encode("x;y;height\n"));
  for (let from = 0; from < rows.length; from += 5_000)
    reader.push(encoder.encode(rows.slice(from, from + 5_000).join("")));
  const checked = checkFile(reader.finish());
  const { user } = process.cpuUsage(begun);
  expect(checked.outcome === "checked" && checked.readings.condensedFrom).toBe(200_000);
  // Microseconds. Alone it takes a quarter of that; the processor's time doesn't grow while others share the machine.
  expect(user).toBeLessThan(2_000_000);
});

function expectFaults(checked: CheckedReadings, { faults }: ReadingsCase & { faults: unknown }): void {
  const found = checked.outcome === "faulty" ? checked.faults : [];
  expect(found.map(({ line, column, code }) => [line, column, code])).toEqual(faults);
  expect(found.every(({ where }) => where === "readings")).toBe(true);
}

function expectReadings(checked: CheckedReadings, expected: readonly ExpectedReading[], text: string): void {
  if (checked.outcome === "faulty") throw new Error(checked.faults.map((fault) => JSON.stringify(fault)).join("\n"));
  const { readings } = checked.readings;
  expect(readings.map(({ row, line, mark }) => [row, line, mark])).toEqual(
    expected.map(([row, , across, , mark]) => [row, typeof across === "string" ? across : null, mark ?? null]),
  );
  const instrument = instrumentOf(settingsOf(readReadingsFile(text).entries));
  expected.forEach(([, xMm, across, gaugeMm], i) => {
    const yMm = typeof across === "number" ? across : linePath(instrument, across)!.yAtMm(xMm);
    near(readings[i]!.xMm, xMm, roundingMm, "x");
    near(readings[i]!.yMm, yMm, roundingMm, "y");
    near(readings[i]!.gaugeMm, gaugeMm, roundingMm, "height");
    const { xMm: x, yMm: y, gaugeMm: height } = readings[i]!;
    expect(
      [x, y, height].some((mm) => Object.is(mm, -0)),
      "minus nought",
    ).toBe(false);
  });
}

function numbersOf(checked: CheckedReadings): readonly number[] {
  if (checked.outcome === "faulty") throw new Error(checked.faults.map((fault) => fault.saw).join("\n"));
  return checked.readings.readings.flatMap(({ xMm, yMm, gaugeMm }) => [xMm, yMm, gaugeMm]);
}
