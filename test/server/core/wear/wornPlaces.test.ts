/** Worn places on a violin whose unworn surface is known: named, measured and told apart. Lengths in mm. */
import { describe, expect, test } from "vitest";
import type { Instrument } from "../../../../server/core/board/instrument.ts";
import type { Gauge } from "../../../../server/core/board/settings.ts";
import { stopMm } from "../../../../server/core/board/stops.ts";
import { stringYMm } from "../../../../server/core/board/stringPaths.ts";
import { wearMap } from "../../../../server/core/wear/wearMap.ts";
import { findWornPlaces, leastWearMm } from "../../../../server/core/wear/wornPlaces.ts";
import { near } from "../../../support/near.ts";
import { instrumentFrom } from "../board/boards.ts";
import {
  evenly,
  knownSurface,
  type PlaceOnLine,
  pointGauge,
  sevenLines,
  shapeWith,
  violin,
  violinSettings,
  wearAt,
} from "../plainBoards.ts";

/** Crosslines at stopped notes of the violin, so that a pit's deepest reading stands at its note. */
const crosslines = [0.7, 1, 2, 3, 4, 5, 7, 9, 12, 16, 20].map((semitone) => stopMm(328, semitone));
const places = sevenLines(violin, crosslines);

type Wear = (place: PlaceOnLine) => number;

function found(wear: Wear, gauge: Gauge = pointGauge, instrument: Instrument = violin, noiseMm = 0.005) {
  const surface = knownSurface(shapeWith(), instrument, noiseMm);
  const worn = wearAt(places, surface, wear);
  return findWornPlaces(worn, wearMap(worn, crosslines, instrument), surface, instrument, gauge);
}

const isOn = (place: PlaceOnLine, string: number): boolean =>
  Math.abs(place.yMm - stringYMm(violin, string, place.xMm)) < 0.1;
const isAt = (place: PlaceOnLine, semitone: number): boolean => Math.abs(place.xMm - stopMm(328, semitone)) < 0.1;

/** Worn at one reading: so deep under that string at that stopped note. */
const pit =
  (string: number, semitone: number, depthMm: number): Wear =>
  (place) =>
    isOn(place, string) && isAt(place, semitone) ? depthMm : 0;

const sum =
  (...wears: readonly Wear[]): Wear =>
  (place) =>
    wears.reduce((total, wear) => total + wear(place), 0);

describe("a place worn at one reading", () => {
  test.each([
    [0, 2, "G", "A", "first"],
    [1, 4, "D", "F sharp", "first"],
    [2, 5, "A", "D", "first"],
    [3, 7, "E", "B", "first"],
    [2, 12, "A", "A", "fourth"],
    [3, 16, "E", "G sharp", "sixth"],
  ])(
    "under string %i at semitone %i is on the %s string at %s, %s position",
    (string, semitone, name, note, position) => {
      const [place, ...others] = found(pit(string, semitone, 0.3));
      expect(others).toEqual([]);
      expect(place).toMatchObject({ string: name, note, position, kind: "finger pit", atLeast: false });
      near(place!.depthMm, 0.3, 1e-12);
      near(place!.deepestReading.xMm, stopMm(328, semitone), 1e-9);
      // A sound reading beside it may stand on a cell of the map that belongs to the place.
      expect(place!.members.filter(({ wearMm }) => wearMm > 0)).toHaveLength(1);
    },
  );

  test("has area and volume, and lies inside its extent", () => {
    const [place] = found(pit(1, 4, 0.3));
    const { xMm, yMm, areaMm2, volumeMm3 } = place!;
    expect(xMm[0]).toBeLessThan(stopMm(328, 4));
    expect(xMm[1]).toBeGreaterThan(stopMm(328, 4));
    expect(yMm[0]).toBeLessThan(stringYMm(violin, 1, xMm[0]));
    expect(areaMm2).toBeGreaterThan(0);
    expect(areaMm2).toBeLessThan((xMm[1] - xMm[0] + 3) * (yMm[1] - yMm[0] + 2));
    expect(volumeMm3).toBeGreaterThan(0.04 * areaMm2);
    expect(volumeMm3).toBeLessThan(0.3 * areaMm2);
  });

  test("carries twice its standard uncertainty: the noise alone where all else is certain", () => {
    near(found(pit(1, 4, 0.3))[0]!.u, 2 * 0.005, 1e-12);
  });
});

describe("what is worth naming", () => {
  test("is a tenth of the depth that calls for a dressing, or what noise shows once in a hundred boards", () => {
    const surface = knownSurface(shapeWith(), violin, 0.005);
    near(leastWearMm(surface, violin, pointGauge, 77), 0.02, 1e-15);
    // One in 7,700: 3.65 standard deviations (normal table, from memory: 3.65 leaves 1.3e-4 above it).
    near(leastWearMm({ ...surface, noiseMm: 0.02 }, violin, pointGauge, 77), 3.65 * 0.02, 2e-4);
    near(leastWearMm(surface, violin, { ...pointGauge, errorLimitMm: 0.3 }, 77), 0.3, 1e-15);
  });

  test("shallower than that is no place; on an unworn board there is none", () => {
    expect(found(pit(1, 4, 0.019))).toEqual([]);
    expect(found(() => 0)).toEqual([]);
    expect(found(pit(1, 4, 0.06))).toHaveLength(1);
  });
});

describe("the kind of a place", () => {
  const rut =
    (string: number, from: number, to: number, depthMm: number): Wear =>
    (place) =>
      isOn(place, string) && place.xMm > stopMm(328, from) - 1 && place.xMm < stopMm(328, to) + 1 ? depthMm : 0;

  test("is a string rut along a string's path over three crosslines or more", () => {
    const places = found(rut(3, 1, 5, 0.15));
    expect(places).toHaveLength(1);
    expect(places[0]).toMatchObject({ kind: "string rut", string: "E", isOnString: true });
    expect(places[0]!.members).toHaveLength(5);
  });

  test("is a finger pit over two crosslines only", () => {
    expect(found(rut(3, 1, 2, 0.15))[0]).toMatchObject({ kind: "finger pit", string: "E" });
  });

  test("is a finger pit between two strings, however long", () => {
    const between: Wear = ({ xMm, yMm }) =>
      Math.abs(yMm - (stringYMm(violin, 1, xMm) + stringYMm(violin, 2, xMm)) / 2) < 0.1 && xMm < 90 ? 0.15 : 0;
    expect(found(between)[0]).toMatchObject({ kind: "finger pit" });
  });

  test("is broad wear where it is wider than a string and a half", () => {
    const broad: Wear = ({ xMm, yMm }) => (Math.abs(xMm - 60) < 40 && Math.abs(yMm) < 8 ? 0.2 : 0);
    expect(found(broad)[0]).toMatchObject({ kind: "broad wear" });
  });

  test("is a hump where the board stands proud, with its height as depth", () => {
    const places = found(pit(2, 9, -0.25));
    expect(places).toHaveLength(1);
    expect(places[0]).toMatchObject({ kind: "hump", atLeast: false });
    near(places[0]!.depthMm, 0.25, 1e-12);
    expect(places[0]!.volumeMm3).toBeGreaterThan(0);
  });
});

test("two pits far apart are two places, the deeper first; a hump stands among them by its height", () => {
  const places = found(sum(pit(0, 2, 0.2), pit(3, 12, 0.35), pit(1, 16, -0.3)));
  expect(places.map(({ kind, string, depthMm }) => [kind, string, Math.round(depthMm * 100)])).toEqual([
    ["finger pit", "E", 35],
    ["hump", "D", 30],
    ["finger pit", "G", 20],
  ]);
});

describe("a rut read with a ball", () => {
  const rut: Wear = (place) => (isOn(place, 2) && place.xMm < 100 ? 0.03 : 0);
  const deepRut: Wear = (place) => (isOn(place, 2) && place.xMm < 100 ? 0.3 : 0);
  const dressedEarly = { ...violinSettings, dress_at: "0.1" };
  const ball = { ...pointGauge, tipRadiusMm: 1.5 };

  test("about as deep as the ball can sink in a rut of the measured width is at least so deep", () => {
    // A ball of 1.5 sinks 0.030 into 0.6.
    const measured = instrumentFrom({ ...dressedEarly, rut_width: "0.6" });
    expect(found(rut, ball, measured)[0]).toMatchObject({ atLeast: true });
  });

  test("clearly shallower than the ball could sink is as deep as read", () => {
    // A ball of 1.5 sinks 0.382 into 2.
    const wide = instrumentFrom({ ...dressedEarly, rut_width: "2" });
    expect(found(rut, ball, wide)[0]).toMatchObject({ atLeast: false });
  });

  test("clearly deeper than the ball could sink is wider than said, and as deep as read", () => {
    const measured = instrumentFrom({ ...dressedEarly, rut_width: "0.6" });
    expect(found(deepRut, ball, measured)[0]).toMatchObject({ atLeast: false });
  });

  test("of unknown width is at least so deep wherever a usual one would hold the ball up", () => {
    const unknown = instrumentFrom(dressedEarly);
    expect(found(rut, ball, unknown)[0]).toMatchObject({ atLeast: true });
  });

  test("is as deep as read with a point", () => {
    expect(found(rut, pointGauge, instrumentFrom(dressedEarly))[0]).toMatchObject({ atLeast: false });
  });
});

describe("no reading that is worn goes unnamed", () => {
  const namedAmong = (all: readonly PlaceOnLine[], across: readonly number[], depthMm: number): number => {
    const surface = knownSurface(shapeWith());
    return all.filter((_, k) => {
      const worn = wearAt(all, surface, (__, i) => (i === k ? depthMm : 0));
      const [deepest] = findWornPlaces(worn, wearMap(worn, across, violin), surface, violin, pointGauge);
      return deepest !== undefined && Math.abs(deepest.depthMm - depthMm) < 1e-9;
    }).length;
  };
  const across = evenly(5, 265, 11);
  const usual = sevenLines(violin, across);

  test("wherever it stands on seven lines, from a depth of 0.15 mm on", () => {
    expect(namedAmong(usual, across, 0.15)).toBe(77);
  });

  test("wherever it stands on seven lines, from half as deep again as what is worth naming", () => {
    expect(namedAmong(usual, across, 0.06)).toBe(77);
  });

  test("on a line 0.3 mm inside the edge", () => {
    const edges = across.flatMap((xMm) => evenly(-1, 1, 9).map((share) => ({ xMm, yMm: share * (11.7 + xMm / 30) })));
    expect(namedAmong(edges, across, 0.3)).toBe(99);
  });
});

test("a place read three times is as deep as the mean of them, and so much the surer", () => {
  const surface = knownSurface(shapeWith(), violin, 0.005);
  const at = places.find((place) => isOn(place, 1) && isAt(place, 4))!;
  const again = [...places, at, at];
  const depths = new Map([
    [places.indexOf(at), 0.3],
    [places.length, 0.36],
    [places.length + 1, 0.33],
  ]);
  const worn = wearAt(again, surface, (_, i) => depths.get(i) ?? 0);
  const [place, ...others] = findWornPlaces(worn, wearMap(worn, crosslines, violin), surface, violin, pointGauge);
  expect(others).toEqual([]);
  expect(place?.members).toHaveLength(3);
  near(place!.depthMm, 0.33, 1e-12);
  near(place!.u, (2 * 0.005) / Math.sqrt(3), 1e-12);
});
