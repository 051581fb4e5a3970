/**
 * Single lines and crosslines, read without noise: what they show is worked out by hand. Lengths in mm.
 */
import { describe, expect, test } from "vitest";
import { stringYMm } from "../../../../server/core/board/stringPaths.ts";
import { lookOneByOne } from "../../../../server/core/quickLook/lookOneByOne.ts";
import { setShape } from "../../../../server/core/quickLook/setShape.ts";
import { camberMm } from "../../../../server/core/surface/idealSurface.ts";
import { near } from "../../../support/near.ts";
import { evenly, pointGauge, readingsAt, violin } from "../plainBoards.ts";

const set = setShape(violin);

describe("one crossline", () => {
  const across = [-12, -5, 0, 6, 12].map((yMm) => ({ xMm: 135, yMm }));

  test("of a board of radius 44: 44", () => {
    const { radii } = lookOneByOne(
      readingsAt(across, ({ yMm }) => 5 + camberMm(yMm, 44)),
      set,
      violin,
      pointGauge,
      0,
    );
    near(radii[0]!.radiusMm.value, 44, 1e-6);
    expect(radii[0]!.withinMm).toEqual([40.5, 43.5]);
  });

  test("read with a ball of 1.5, whose centre runs on an arc of 45.5: still 44", () => {
    const ball = { ...pointGauge, tipRadiusMm: 1.5 };
    const { radii } = lookOneByOne(
      readingsAt(across, ({ yMm }) => 5 + camberMm(yMm, 45.5)),
      set,
      violin,
      ball,
      0,
    );
    near(radii[0]!.radiusMm.value, 44, 1e-6);
  });

  test("read over a tenth of its width tells no radius", () => {
    const narrow = [-1, 0, 1].map((yMm) => ({ xMm: 135, yMm }));
    expect(
      lookOneByOne(
        readingsAt(narrow, ({ yMm }) => camberMm(yMm, 44)),
        set,
        violin,
        pointGauge,
        0,
      ).radii,
    ).toEqual([]);
  });
});

describe("one line", () => {
  const under = (index: number) => evenly(8, 262, 6).map((xMm) => ({ xMm, yMm: stringYMm(violin, index, xMm) }));
  const named = (index: number, heightMm: (u: number) => number) => {
    const readings = readingsAt(under(index), ({ xMm }) => heightMm(xMm / 270));
    return { ...readings, readings: readings.readings.map((one) => ({ ...one, line: violin.strings[index]! })) };
  };

  test("under the G string, 0.8 hollow as a parabola: 0.8 under the G string, against 0.6 to 0.8", () => {
    const looked = lookOneByOne(
      named(0, (u) => 9 - 3.2 * u * (1 - u)),
      set,
      violin,
      pointGauge,
      0,
    );
    const [hollow] = looked.hollows;
    expect([hollow?.where, hollow?.stringIndex]).toEqual(["under the G string", 0]);
    // Six exact readings settle it; what is known beforehand of the deepest place pulls by less than a thousandth.
    near(hollow!.hollowMm.value, 0.8, 0.001);
    near(hollow!.withinMm[0], 0.6, 1e-3);
    near(hollow!.withinMm[1], 0.8, 1e-3);
    expect(looked.radii).toEqual([]);
  });

  test("that stops short of the bridge end by a third tells no hollow", () => {
    const short = named(0, (u) => 9 - 3.2 * u * (1 - u));
    const cut = { ...short, readings: short.readings.slice(0, 4) };
    expect(lookOneByOne(cut, set, violin, pointGauge, 0).hollows).toEqual([]);
  });

  test("of two set-ups is two lines, each too short", () => {
    const one = named(0, (u) => 9 - 3.2 * u * (1 - u));
    const two = { ...one, setups: ["a", "b"], readings: one.readings.map((r, i) => ({ ...r, setup: i < 3 ? 0 : 1 })) };
    expect(lookOneByOne(two, set, violin, pointGauge, 0).hollows).toEqual([]);
  });
});
