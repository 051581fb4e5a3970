/**
 * What a readings file is known to hold before instrument and gauge are: settings, layout, set-up, numbers as written.
 */
import { expect, test } from "vitest";
import { readReadingsFile } from "../../../../server/core/readings/readReadingsFile.ts";

test("settings are taken down as written, in order, each with its line; remarks are not", () => {
  const text =
    '# loan store\n# Instrument: cello\n\n# at 9:15\n#tip-radius:1.5\n"# strings: C, G, D, A",,\nx,y,height\n10,0,1\n';
  expect(readReadingsFile(text).entries).toEqual([
    { key: "instrument", value: "cello", where: "readings", line: 2 },
    { key: "tip_radius", value: "1.5", where: "readings", line: 5 },
    { key: "strings", value: "C, G, D, A", where: "readings", line: 6 },
  ]);
});

test("settings are known even where the table under them can't be read", () => {
  const file = readReadingsFile("# instrument: cello\nnonsense\n1,2,3\n");
  expect(file.entries.length).toBe(1);
  expect(file.layout).toBeNull();
  expect(file.readings.count).toBe(0);
});

test("numbers stand as written, in the file's own unit and sign", () => {
  const file = readReadingsFile("# reads: depth\n# unit: thou\nx;line;height;setup;mark\n10;C/G;12,5;rail;check\n");
  expect(file.layout).toBe("list");
  expect(file.setups).toEqual(["rail"]);
  expect(file.names).toEqual([{ name: "C/G", place: { line: 4, column: 2 } }]);
  expect(file.readings.count).toBe(1);
  expect(file.readings.at(0)).toEqual({
    row: 4,
    column: 3,
    x: 10,
    y: Number.NaN,
    nameIndex: 0,
    height: 12.5,
    setup: 0,
    mark: "check",
  });
});

test("a line's name is kept once, however many readings lie on it", () => {
  const file = readReadingsFile(`x,line,height\n${"10,C,1\n20,G,2\n".repeat(500)}`);
  expect(file.names.map(({ name }) => name)).toEqual(["C", "G"]);
  expect(file.readings.count).toBe(1000);
  expect(file.readings.at(999)).toMatchObject({ row: 1001, x: 20, nameIndex: 1, height: 2 });
});

test("asking for a reading that isn't there is a mistake of the program", () => {
  expect(() => readReadingsFile("x,y,height\n10,0,1\n").readings.at(1)).toThrow(RangeError);
});

test("text and its bytes are the same file", () => {
  const text = "\uFEFFx;y;height;note\n10;0;1;Würzburg\n";
  const ofText = readReadingsFile(text);
  const ofBytes = readReadingsFile(new TextEncoder().encode(text));
  expect(ofText.readings.at(0)).toEqual(ofBytes.readings.at(0));
  expect(ofText.faults).toEqual([]);
});

test("of a thousand settings lines and more the rest is not kept, and that is told once", () => {
  const file = readReadingsFile(`${"# tip_radius: 1.5\n".repeat(3_000)}x,y,height\n10,0,1\n`);
  expect(file.entries.length).toBeLessThan(1_100);
  expect(file.faults.map(({ code, line }) => `${code} ${line}`)).toEqual(["too-many-settings 1001"]);
});
