/** What calls for a dressing: certain, possible, near or none, on both sides of each limit. Lengths in mm. */
import { describe, expect, test } from "vitest";
import type { Job } from "../../../../server/core/board/settings.ts";
import type { HollowUnderString, SurveyedSurface } from "../../../../server/core/examination.ts";
import { needsOf } from "../../../../server/core/thickness/needs.ts";
import type { FoundPlace } from "../../../../server/core/wear/wornPlaces.ts";
import { near } from "../../../support/near.ts";
import { instrumentFrom } from "../board/boards.ts";
import { violinSettings } from "../plainBoards.ts";

const violin = instrumentFrom({
  ...violinSettings,
  dress_at: "0.2",
  radius_tolerance: "1.5",
  hollow_tolerance: "0.1",
});

const workshop: Job = {
  aim: "workshop",
  spare: "wood",
  templateRadiiMm: [],
  build: "solid",
  valuable: false,
  loose: false,
  newBoard: false,
};

const hollow = (value: number, u: number, state: HollowUnderString["state"]): HollowUnderString => ({
  string: "G",
  hollowMm: { value, u },
  measuredMm: null,
  withinMm: [0.6, 0.8],
  state,
  deepestAtMm: 135,
});

function board(changes: Partial<SurveyedSurface> = {}): SurveyedSurface {
  const right = { value: 42, u: 0.3 };
  return {
    noiseMm: 0.01,
    unwornShare: 1,
    formMm: null,
    camberRadiusMm: { nut: right, middle: right, end: right },
    hollows: [hollow(0.7, 0.03, "within")],
    twistMm: { value: 0, u: 0.1 },
    humps: [],
    assumed: [],
    ...changes,
  };
}

function place(kind: FoundPlace["kind"], depthMm: number, u: number, readings = 3): FoundPlace {
  const at = { row: 2, givenXMm: 68, givenYMm: 3, xMm: 68, yMm: 3, heightMm: 9, line: null, mark: null, setup: 0 };
  const deepestReading = { ...at, unwornMm: 9 + depthMm, wearMm: depthMm };
  return {
    kind,
    string: "A",
    note: "C sharp",
    position: "first",
    depthMm,
    u,
    atLeast: false,
    xMm: [60, 76],
    yMm: [1, 5],
    areaMm2: 50,
    volumeMm3: 5,
    isOnString: true,
    deepestReading,
    members: Array.from({ length: readings }, () => deepestReading),
  };
}

const certain = (shape: SurveyedSurface, places: readonly FoundPlace[] = [], job: Job = workshop) =>
  needsOf(shape, places, violin, job)
    .filter(({ certainty }) => certainty !== "none")
    .map(({ respect, certainty }) => `${respect} ${certainty}`);

describe("a board", () => {
  test("that is right needs nothing", () => {
    expect(certain(board())).toEqual([]);
    expect(needsOf(board(), [], violin, workshop)).toHaveLength(4);
  });

  test.each([
    [0.25, 0.03, ["wear certain"]],
    [0.22, 0.03, ["wear possible"]],
    [0.18, 0.03, ["wear near"]],
    [0.15, 0.03, []],
  ])("worn by %f ± %f where a dressing is due from 0.2: %j", (depthMm, u, expected) => {
    expect(certain(board(), [place("finger pit", depthMm, u)])).toEqual(expected);
  });

  test("with a hump of more than that needs it as well, by the highest of them", () => {
    const found = [place("hump", 0.3, 0.03), place("string rut", 0.25, 0.03), place("hump", 0.1, 0.03)];
    expect(certain(board(), found)).toEqual(["wear certain", "hump certain"]);
  });

  test("with a hump, or wear of over a millimetre, at one reading alone may have been misread", () => {
    expect(certain(board(), [place("hump", 0.5, 0.03, 1)])).toEqual(["hump possible"]);
    expect(certain(board(), [place("finger pit", 1.2, 0.03, 1)])).toEqual(["wear possible"]);
    expect(certain(board(), [place("finger pit", 0.5, 0.03, 1)])).toEqual(["wear certain"]);
  });

  test.each([
    [0.84, "deep", ["hollow certain"], 0.8],
    [0.82, "deep", ["hollow possible"], 0.8],
    [0.79, "within", ["hollow near"], 0.8],
    [0.61, "within", ["hollow near"], 0.6],
    [0.58, "shallow", ["hollow possible"], 0.6],
    [0.56, "shallow", ["hollow certain"], 0.6],
    [-0.2, "humped", ["hollow certain"], 0.6],
  ] as const)("hollow by %f where 0.6 to 0.8 is right is %s: %j, against %f", (value, state, expected, limitMm) => {
    const shape = board({ hollows: [hollow(value, 0.03, state)] });
    expect(certain(shape)).toEqual(expected);
    const need = needsOf(shape, [], violin, workshop).find(({ respect }) => respect === "hollow");
    near(need!.reason.limitMm!, limitMm, 1e-12);
  });

  test.each([
    [43.9, ["camber certain"], 43.5],
    [43.7, ["camber possible"], 43.5],
    [43.3, ["camber near"], 43.5],
    [40.7, ["camber near"], 40.5],
    [40.3, ["camber possible"], 40.5],
    [40.1, ["camber certain"], 40.5],
  ] as const)("with a radius of %f at the nut where 42 ± 1.5 is right: %j, against %f", (value, expected, limitMm) => {
    const right = { value: 42, u: 0.3 };
    const shape = board({ camberRadiusMm: { nut: { value, u: 0.3 }, middle: right, end: right } });
    expect(certain(shape)).toEqual(expected);
    const need = needsOf(shape, [], violin, workshop).find(({ respect }) => respect === "camber");
    near(need!.reason.limitMm!, limitMm, 1e-12);
    expect(need!.reason.says).toContain(
      Math.abs(value - 42) <= 1.5 ? "in its range" : value > 42 ? "too flat" : "too round",
    );
  });

  test("whose own shape is to be renewed is not held against the workshop's", () => {
    const shape = board({ hollows: [hollow(1.5, 0.03, "deep")] });
    expect(certain(shape, [], { ...workshop, aim: "own" })).toEqual([]);
    expect(certain(shape, [place("broad wear", 0.3, 0.03)], { ...workshop, aim: "own" })).toEqual(["wear certain"]);
  });

  test("has each reason told with its number, its uncertainty, its limit and where that comes from", () => {
    const [need] = needsOf(board(), [place("finger pit", 0.25, 0.03)], violin, workshop);
    expect(need?.reason).toMatchObject({ code: "wear", valueMm: 0.25, u: 0.03, limitMm: 0.2 });
    expect(need?.reason.origin).toBe(violin.dressAtMm.origin);
    expect(need?.reason.says).toContain("under the A string at C sharp, 68 mm from the nut");
    near(need!.overMm, 0.05, 1e-12);
  });
});
