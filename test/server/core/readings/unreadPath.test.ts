/** Where a rut could lie unread, and strings that no line runs near. Lengths in mm; widths by hand on round figures. */
import { describe, expect, test } from "vitest";
import { emptyGrid } from "../../../../server/core/board/emptyGrid.ts";
import type { Instrument } from "../../../../server/core/board/instrument.ts";
import { halfWidthMm } from "../../../../server/core/board/outline.ts";
import { linePath, stringYMm } from "../../../../server/core/board/stringPaths.ts";
import type { Readings } from "../../../../server/core/readings/readings.ts";
import { unreadPaths } from "../../../../server/core/readings/unreadPath.ts";
import { near } from "../../../support/near.ts";
import { instrumentFrom } from "../board/boards.ts";

/** S 340; outer strings 16 apart at the nut and 36 at the bridge; stopped notes 1, 7 and 12 at 19.1, 113.1 and 170. */
const violin = instrumentFrom({
  instrument: "violin",
  string_length: "340",
  board_length: "275",
  spacing_nut: "16",
  spacing_bridge: "36",
  rut_width: "0.8",
});

type YAt = (xMm: number) => number;

const unreadPath = (readings: Readings, instrument: Instrument) => unreadPaths(readings, instrument).widest;

function readAlong(lines: readonly YAt[], crosslinesMm: readonly number[]): Readings {
  return {
    stage: "checked",
    setups: [""],
    readings: crosslinesMm.flatMap((xMm, i) =>
      lines.map((yAt, j) => ({
        row: 2 + i * lines.length + j,
        xMm,
        yMm: yAt(xMm),
        gaugeMm: 0,
        line: null,
        mark: null,
        setup: 0,
      })),
    ),
  };
}

const strings: readonly YAt[] = [0, 1, 2, 3].map((index) => (xMm) => stringYMm(violin, index, xMm));
const crosslinesMm = [5, 37, 70, 85, 100, 140, 180, 220, 270];

function gridReadings(instrument: Instrument, count: number): Readings {
  const { lines, xMm } = emptyGrid(instrument, count);
  const paths = lines.map((name): YAt => linePath(instrument, name)!.yAtMm);
  return readAlong(paths, xMm);
}

describe("no rut hides", () => {
  test.each(["violin", "violin 1/2", "viola", "cello", "bass"])("under the empty grids of a %s", (kind) => {
    const instrument = instrumentFrom({ instrument: kind });
    for (const count of [35, 60, 77, 91, 400])
      expect(unreadPath(gridReadings(instrument, count), instrument)).toBeNull();
  });

  test("where four lines run under the strings and one down the centre", () => {
    expect(unreadPath(readAlong([...strings, () => 0], crosslinesMm), violin)).toBeNull();
  });

  test("where a bench sets the tip half a millimetre beside the strings, as well as it can", () => {
    expect(
      unreadPath(
        readAlong(
          strings.map(
            (yAt): YAt =>
              (xMm) =>
                yAt(xMm) + 0.45,
          ),
          crosslinesMm,
        ),
        violin,
      ),
    ).toBeNull();
  });

  test("on a scan a millimetre apart", () => {
    const lines = Array.from(
      { length: 35 },
      (_, k): YAt =>
        () =>
          k - 17,
    );
    expect(
      unreadPath(
        readAlong(
          lines,
          Array.from({ length: 270 }, (_, k) => k + 3),
        ),
        violin,
      ),
    ).toBeNull();
  });

  test("beside the strings where the ruts are known to be as wide as that", () => {
    const wide = instrumentFrom({ instrument: "violin", spacing_nut: "16", spacing_bridge: "36", rut_width: "4" });
    const beside = strings.map(
      (yAt): YAt =>
        (xMm) =>
          yAt(xMm) + 1.5,
    );
    expect(unreadPath(readAlong(beside, crosslinesMm), violin)).not.toBeNull();
    expect(unreadPath(readAlong(beside, crosslinesMm), wide)).toBeNull();
  });
});

describe("a rut could hide", () => {
  test("under every string of five lines laid beside them, up to twice as wide as the lines are off", () => {
    const beside = strings.map(
      (yAt): YAt =>
        (xMm) =>
          yAt(xMm) + 1.5,
    );
    const unread = unreadPath(readAlong([...beside, () => 0], crosslinesMm), violin)!;
    near(unread.widestRutMm, 3, 1e-9);
    expect(unread.string).toBe("G");
  });

  test("under the one string that nobody read, as wide as the strings are apart at most", () => {
    const unread = unreadPath(readAlong([strings[0]!, strings[1]!, strings[3]!], crosslinesMm), violin)!;
    expect(unread.string).toBe("A");
    // At the octave the outer strings are 16 + 20/2 = 26 apart, a third of that from one to the next.
    near(unread.widestRutMm, 26 / 3, 1e-9);
    near(unread.place.yMm, stringYMm(violin, 2, unread.place.xMm), 1e-12);
  });

  test("from first position to the octave, where only first position was read", () => {
    const unread = unreadPath(readAlong(strings, [5, 37, 70, 100, 200, 270]), violin)!;
    expect(unread.place.xMm).toBeGreaterThan(113);
    expect(unread.place.xMm).toBeLessThan(170);
  });

  test("between lines spread evenly from edge to edge", () => {
    const five = [-1, -0.5, 0, 0.5, 1].map(
      (share): YAt =>
        (xMm) =>
          share * (halfWidthMm(violin, xMm) - 2),
    );
    expect(unreadPath(readAlong(five, crosslinesMm), violin)!.widestRutMm).toBeGreaterThan(3);
  });
});

/** A survey of eleven crosslines evenly along, on lines evenly across: all at constant y within the nut, or fanning out with the board. */
function evenSurvey(instrument: Instrument, count: number, layout: "constant y" | "shares", insetMm: number): Readings {
  const lengthMm = instrument.boardLengthMm.value;
  const lines = Array.from({ length: count }, (_, k): YAt => {
    const share = (2 * k) / (count - 1) - 1;
    return (xMm) => share * (halfWidthMm(instrument, layout === "shares" ? xMm : 0) - insetMm);
  });
  return readAlong(
    lines,
    Array.from({ length: 11 }, (_, k) => 5 + ((lengthMm - 10) * k) / 10),
  );
}

describe.each(["violin", "viola", "cello", "bass"])("on a %s", (kind) => {
  const instrument = instrumentFrom({ instrument: kind });
  const read = (count: number, layout: "constant y" | "shares", insetMm = 3) =>
    unreadPaths(evenSurvey(instrument, count, layout, insetMm), instrument);

  test.each([5, 6, 7, 9, 11])(
    "%i lines evenly across run near every string, at constant y as well as fanning out",
    (count) => {
      expect(read(count, "constant y").withoutLine).toBeNull();
      expect(read(count, "shares").withoutLine).toBeNull();
    },
  );

  test("three lines leave the inner strings midway between lines, which is near none", () => {
    const inner = instrument.strings.slice(1, 3);
    for (const layout of ["constant y", "shares"] as const)
      expect(inner).toContain(read(3, layout).withoutLine!.string);
  });

  test("what could hide between seven lines is told all the same", () => {
    expect(read(7, "constant y").widest!.widestRutMm).toBeGreaterThan(instrument.rutWidthMm.value);
  });

  test("its empty grids have a line under every string from 28 readings on", () => {
    for (const count of [35, 60, 77, 91, 400])
      expect(unreadPaths(gridReadings(instrument, count), instrument)).toEqual({ widest: null, withoutLine: null });
  });
});

describe("four lines", () => {
  test("fanning out to within a millimetre of the edges leave a string without a line, save on a bass", () => {
    const without = ["violin", "viola", "cello", "bass"].filter((kind) => {
      const instrument = instrumentFrom({ instrument: kind });
      return unreadPaths(evenSurvey(instrument, 4, "shares", 1), instrument).withoutLine !== null;
    });
    expect(without).toEqual(["violin", "viola", "cello"]);
  });

  test("under the strings, each set half a millimetre less than half-way to the next, are still lines of their own", () => {
    const off = (mm: number) =>
      strings.map(
        (yAt): YAt =>
          (xMm) =>
            yAt(xMm) + mm,
      );
    // At the crossline at 100 strings are (16 + 20·100/340)/3 = 7.29 apart: half of it less 0.5 is 3.15. The narrower the farther off.
    const one = (mm: number) => unreadPaths(readAlong(off(mm), [100, 160]), violin).withoutLine;
    expect(one(3.1)).toBeNull();
    expect(one(3.2)?.string).toBe("G");
  });
});
