/** Which ruts a ball may not have bottomed. Readings on the A string of a violin, 20 mm apart; lengths in mm; reaches by hand. */
import { describe, expect, test } from "vitest";
import type { Gauge } from "../../../../server/core/board/settings.ts";
import { stringYMm } from "../../../../server/core/board/stringPaths.ts";
import { type MaybeRut, ruledByTip } from "../../../../server/core/wear/rutsUnderTip.ts";
import type { PlaceRead, WornReading } from "../../../../server/core/wear/wearAtReadings.ts";
import { instrumentFrom } from "../board/boards.ts";
import { pointGauge } from "../plainBoards.ts";

/** Rut of 0.8, nobody having measured it; twice that, 1.6, lets a ball of 1.5 sink 1.5 − √(1.5² − 0.8²) = 0.231. */
const unknown = instrumentFrom({ instrument: "violin" });
const cello = instrumentFrom({ instrument: "cello" });
const ball: Gauge = { ...pointGauge, tipRadiusMm: 1.5 };

const aString = 2;

function readAlong(wearMm: readonly number[], stepMm = 20): readonly PlaceRead[] {
  return wearMm.map((mm, i) => {
    const xMm = 20 + stepMm * i;
    const yMm = stringYMm(unknown, aString, xMm);
    const mean: WornReading = {
      row: i + 2,
      givenXMm: xMm,
      givenYMm: yMm,
      xMm,
      yMm,
      heightMm: 10 - mm,
      unwornMm: 10,
      wearMm: mm,
      line: null,
      mark: null,
      setup: 0,
    };
    return { mean, repeats: [mean] };
  });
}

function placeAt(read: readonly PlaceRead[], index: number, changes: Partial<MaybeRut> = {}): MaybeRut {
  const deepestReading = read[index]!.mean;
  return {
    kind: "finger pit",
    string: "A",
    isOnString: true,
    depthMm: deepestReading.wearMm,
    u: 0.02,
    deepestReading,
    ...changes,
  };
}

function isAtLeast(wearMm: readonly number[], index: number, stepMm = 20, changes: Partial<MaybeRut> = {}): boolean {
  const read = readAlong(wearMm, stepMm);
  return ruledByTip([placeAt(read, index, changes)], read, unknown, ball)[0]!.atLeast;
}

describe("of unknown width, under a ball, is at least as deep as read", () => {
  test.each([
    ["a row of three readings about as deep", [0, 0.12, 0.1, 0.13, 0], 3, true],
    ["a row that the end of the path cuts off", [0.1, 0.12, 0.1], 1, true],
    [
      "a long row, the deepest of it as deep as the ball can sink and its uncertainty",
      [0.25, 0.25, 0.25, 0.25],
      1,
      true,
    ],
    ["no row deeper than the ball could sink", [0.26, 0.26, 0.26, 0.26], 1, false],
    ["no lone pit", [0, 0, 0.12, 0, 0], 2, false],
    ["no pit that two crosslines share", [0, 0.12, 0.12, 0], 1, false],
    ["no three pits apart", [0.12, 0, 0.12, 0, 0.12], 2, false],
    ["no pit with shallow sides", [0.03, 0.12, 0.03], 1, false],
    ["no shallow edge of a deep pit", [0.03, 0.2, 0.03], 0, false],
  ] as const)("%s", (_row, wearMm, index, atLeast) => {
    expect(isAtLeast(wearMm, index)).toBe(atLeast);
  });

  test("no row within a fingertip's pit", () => {
    expect(isAtLeast([0, 0.1, 0.11, 0.1, 0], 2, 10)).toBe(false);
    expect(isAtLeast([0, 0.1, 0.11, 0.1, 0], 2, 11)).toBe(true);
  });

  test("no wear that is broad, or lies beside the string", () => {
    expect(isAtLeast([0.1, 0.12, 0.1], 1, 20, { isOnString: false })).toBe(false);
    const read = readAlong([0.1, 0.12, 0.1, 0, 0.3]);
    const broad = placeAt(read, 1, { isOnString: false });
    expect(ruledByTip([broad, placeAt(read, 4)], read, unknown, ball).map(({ atLeast }) => atLeast)).toEqual([
      false,
      false,
    ]);
  });

  test("no two readings, however far apart", () => {
    expect(isAtLeast([0, 0.12, 0.12, 0], 1, 30)).toBe(false);
  });

  test("every other place on that string with it, and none on another", () => {
    const read = readAlong([0.1, 0.12, 0.1, 0, 0.3]);
    const row = placeAt(read, 1);
    const deeper = placeAt(read, 4);
    const told = ruledByTip(
      [row, deeper, { ...deeper, string: "D" }, { ...deeper, isOnString: false }],
      read,
      unknown,
      ball,
    );
    expect(told.map(({ atLeast }) => atLeast)).toEqual([true, true, false, false]);
  });

  test("nothing under a point, nor under a ball that a rut of the narrow end of usual lets in", () => {
    const read = readAlong([0.1, 0.12, 0.1]);
    expect(ruledByTip([placeAt(read, 1)], read, unknown, pointGauge)[0]!.atLeast).toBe(false);
    // A cello's is taken as 1.5 wide, which is the diameter of a ball of 0.75.
    expect(ruledByTip([placeAt(read, 1)], read, cello, { ...ball, tipRadiusMm: 0.75 })[0]!.atLeast).toBe(false);
  });
});

test("of a measured width a single reading is enough", () => {
  const measured = instrumentFrom({ instrument: "violin", rut_width: "0.8" });
  const read = readAlong([0, 0.05, 0, 0]);
  // A ball of 1.5 sinks 0.054 into 0.8.
  expect(ruledByTip([placeAt(read, 1)], read, measured, ball)[0]!.atLeast).toBe(true);
  expect(ruledByTip([placeAt(read, 1, { depthMm: 0.08 })], read, measured, ball)[0]!.atLeast).toBe(false);
});
