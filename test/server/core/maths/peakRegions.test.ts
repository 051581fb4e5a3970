/** Regions round peaks, on fields drawn by hand: a digit is the height of its cell, a letter names its region. */
import { describe, expect, test } from "vitest";
import { peakRegions, type Separation } from "../../../../server/core/maths/peakRegions.ts";

/** Threshold 1, apart from a fifth of the lower peak above the saddle, or from 1 at least. */
const usual: Separation = { threshold: 1, prominence: 1 / 5, leastProminence: 1 };

/** Letters by height of the peak: A the highest; a dot where no region is. */
function drawn(picture: readonly string[], separation: Separation = usual): string[] {
  const field = picture.map((line) => [...line].map((digit) => (digit === "." ? Number.NEGATIVE_INFINITY : +digit)));
  const letters = picture.map((line) => [...line].map(() => "."));
  peakRegions(field, separation).regions.forEach((cells, i) => {
    for (const { row, column } of cells) letters[row]![column] = "ABCDEF"[i]!;
  });
  return letters.map((line) => line.join(""));
}

describe("regions round peaks", () => {
  test("a single pit is one region down to the threshold", () => {
    expect(drawn(["00000", "01210", "02520", "01210", "00000"])).toEqual([".....", ".AAA.", ".AAA.", ".AAA.", "....."]);
  });

  test("nothing above the threshold is no region", () => {
    expect(drawn(["000", "000"])).toEqual(["...", "..."]);
  });

  test("two pits with unworn wood between are two, the deeper first", () => {
    expect(drawn(["5300046"])).toEqual(["BB...AA"]);
  });

  test("two pits with a deep saddle stay two, and the saddle goes to the deeper", () => {
    expect(drawn(["5426"])).toEqual(["BBAA"]);
  });

  test("a pit that hardly stands out above the saddle belongs to its neighbour", () => {
    // 8 − 7 = 1, less than a fifth of 8; 8 − 6 = 2 is more.
    expect(drawn(["9788"])).toEqual(["AAAA"]);
    expect(drawn(["9688"])).toEqual(["AABB"]);
  });

  test("a rise of exactly what is asked keeps two apart, a little less joins them", () => {
    expect(drawn(["654"])).toEqual(["AAA"]);
    expect(drawn(["545"], { threshold: 1, prominence: 0, leastProminence: 1 })).toEqual(["AAB"]);
    expect(drawn(["545"], { threshold: 1, prominence: 0, leastProminence: 1.01 })).toEqual(["AAA"]);
  });

  test("corners count as neighbours", () => {
    expect(drawn(["300", "030", "003"])).toEqual(["A..", ".A.", "..A"]);
  });

  test("cells outside the board part what lies on both sides", () => {
    expect(drawn(["33.33", "33.33"])).toEqual(["AA.BB", "AA.BB"]);
  });

  test("a ring is one region, its middle is not in it", () => {
    expect(drawn(["333", "303", "333"])).toEqual(["AAA", "A.A", "AAA"]);
  });

  test("three pits that meet at one saddle: the lowest alone joins, if it alone hardly stands out", () => {
    // Peaks 9, 8, 6 round a saddle of 5: 6 − 5 = 1 < 1.2 joins; 8 − 5 = 3 ≥ 1.6 stays apart.
    expect(drawn(["9008", "0550", "0060"])).toEqual(["A..B", ".AA.", "..A."]);
  });

  test("with endless prominence it is plain labelling of what hangs together", () => {
    const all = { threshold: 1, prominence: Number.POSITIVE_INFINITY, leastProminence: 0 };
    expect(drawn(["9191909"], all)).toEqual(["AAAAA.B"]);
  });

  test("every cell above the threshold is in exactly one region", () => {
    const field = Array.from({ length: 12 }, (_, i) =>
      Array.from({ length: 15 }, (_, j) => 3 * Math.sin(i * 1.7) * Math.cos(j * 1.1)),
    );
    const { regions } = peakRegions(field, { threshold: 0.5, prominence: 0.2, leastProminence: 0.1 });
    const keys = regions.flat().map(({ row, column }) => `${row} ${column}`);
    expect(new Set(keys).size).toBe(keys.length);
    expect(keys.length).toBe(field.flat().filter((value) => value >= 0.5).length);
    const peaks = regions.map((cells) => Math.max(...cells.map(({ row, column }) => field[row]![column]!)));
    expect(peaks).toEqual([...peaks].sort((a, b) => b - a));
  });
});
