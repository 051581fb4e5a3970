/** The board as drawn is the board as computed: outline, strings, notes and positions agree with the core's. */
import { expect, test } from "vitest";
import { halfWidthMm as coreHalfWidthMm } from "../../../server/core/board/outline.ts";
import { namePlace, stopMm } from "../../../server/core/board/stops.ts";
import { stringYMm as coreStringYMm } from "../../../server/core/board/stringPaths.ts";
import {
  halfWidthMm,
  nearestNote,
  nearestString,
  outlineMm,
  positionName,
  stoppedNoteMm,
  stringYMm,
} from "../../../web/chart/board.ts";
import { fixtureExamination } from "../fixtureExamination.ts";

const kinds = ["violin", "viola", "cello", "bass"] as const;

test.each(kinds)("a %s's outline, strings and stops lie where the core has them", (kind) => {
  const { instrument } = fixtureExamination(kind);
  const length = instrument.boardLengthMm.value;
  for (const share of [0, 0.13, 0.5, 1]) {
    const x = share * length;
    // The same arithmetic: rounding in the last digits only.
    expect(halfWidthMm(instrument, x)).toBeCloseTo(coreHalfWidthMm(instrument, x), 9);
    instrument.strings.forEach((_, i) => {
      expect(stringYMm(instrument, i, x)).toBeCloseTo(coreStringYMm(instrument, i, x), 9);
      expect(nearestString(instrument, x, stringYMm(instrument, i, x) + 0.5)).toBe(i);
    });
  }
  for (const semitone of [1, 4, 12]) {
    expect(stoppedNoteMm(instrument, semitone)).toBeCloseTo(stopMm(instrument.stringLengthMm.value, semitone), 9);
  }
});

test.each(kinds)("a place on a %s has the name that the core gives it", (kind) => {
  const { instrument } = fixtureExamination(kind);
  for (let share = 0.005; share < 1; share += 0.01) {
    const xMm = share * instrument.boardLengthMm.value;
    instrument.strings.forEach((_, string) => {
      const core = namePlace(instrument, { xMm, yMm: stringYMm(instrument, string, xMm) });
      const { note, semitone } = nearestNote(instrument, string, xMm);
      expect([note, positionName(instrument, semitone)]).toEqual([core.note, core.position]);
    });
  }
});

test("the outline tapers from nut to end", () => {
  const { instrument } = fixtureExamination("cello");
  expect(outlineMm(instrument)).toEqual([
    [0, -15.5],
    [0, 15.5],
    [580, 31.5],
    [580, -31.5],
  ]);
});
