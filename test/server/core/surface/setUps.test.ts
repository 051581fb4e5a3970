/** Set-ups of the rail, each with a height and a pitch of its own: found with the surface, tied by passes across. Lengths in mm. */
import { describe, expect, test } from "vitest";
import { makeBoard } from "../../../../data/make/board.ts";
import type { SetUp } from "../../../../data/make/recipe.ts";
import { seededRandom } from "../../../../server/core/maths/seededRandom.ts";
import type { Reading, Readings } from "../../../../server/core/readings/readings.ts";
import { heightMm, type ParameterName } from "../../../../server/core/surface/idealSurface.ts";
import { setUpMm, setUpsOf, writeSetUp } from "../../../../server/core/surface/setUps.ts";
import { assumedInWords } from "../../../../server/core/surface/softConstraints.ts";
import { varianceOf } from "../../../../server/core/surface/surfaceUncertainty.ts";
import { fitUnwornSurface } from "../../../../server/core/surface/unwornSurface.ts";
import { examineFiles } from "../../../support/examineMade.ts";
import { near } from "../../../support/near.ts";
import { syntheticBoard } from "../../../support/syntheticBoards.ts";
import { type PlaceOnLine, pointGauge, violin } from "../plainBoards.ts";
import { lines, noiseMm, places, plan, seededShape } from "./seededBoards.ts";

describe("how set-ups ran", () => {
  // Three readings along the board at y = 5, two more across at x = 100, one set-up named that no reading is of.
  const setUp = [0, 0, 0, 1, 1];
  const xMm = [0, 50, 120, 100, 100];
  const yMm = [5, 5, 5, -8, 12];
  const setUps = setUpsOf(setUp, xMm, yMm, 3);

  test("the one with most readings is the board's frame, one without any has no unknowns", () => {
    expect(setUps.runs[0]).toBeNull();
    expect(setUps.runs[2]).toBeNull();
    expect(setUps.unknowns).toBe(2);
  });

  test("one is across where its readings lie farther apart across than along; its middle is midway", () => {
    expect(setUps.runs[1]).toEqual({ column: 0, isAcross: true, middleMm: 2 });
    // The other way round: of a longer pass across, the line along is the one with unknowns.
    const { runs } = setUpsOf([0, 0, 0, 1, 1, 1, 1], [0, 50, 120, 9, 9, 9, 9], [5, 5, 5, -8, -2, 2, 12], 2);
    expect(runs).toEqual([{ column: 0, isAcross: false, middleMm: 60 }, null]);
  });

  test("each further one has two columns of its own", () => {
    const { runs, unknowns } = setUpsOf([0, 0, 1, 2, 2, 2, 3], [0, 9, 4, 1, 2, 3, 7], [0, 0, 0, 0, 0, 0, 0], 4);
    expect(unknowns).toBe(6);
    expect(runs.map((run) => run?.column ?? null)).toEqual([0, 2, null, 4]);
  });

  test("a row is answered by 1 and by the distance from the middle along the run, in its own columns", () => {
    const row = new Float64Array(5).fill(7);
    writeSetUp(setUps, 1, 100, 12, row, 2);
    expect([...row]).toEqual([7, 7, 1, 10, 7]);
    writeSetUp(setUps, 0, 100, 12, row, 2);
    expect([...row]).toEqual([7, 7, 0, 0, 7]);
  });

  test("one that stands 0.3 high and climbs by 0.02 reads 0.5 high ten from its middle; the frame reads right", () => {
    // A sum of two terms.
    near(setUpMm(setUps, Float64Array.of(0.3, 0.02), 1, 100, 12), 0.5, 1e-15);
    expect(setUpMm(setUps, Float64Array.of(0.3, 0.02), 0, 100, 12)).toBe(0);
  });
});

type Pass = { readonly places: readonly PlaceOnLine[]; readonly isAcross: boolean };

const onLine = (column: number): Pass => ({ places: places.filter((_, i) => i % lines === column), isAcross: false });
const onCrossline = (row: number): Pass => ({
  places: places.filter((_, i) => Math.floor(i / lines) === row),
  isAcross: true,
});
const onRows = (from: number, to: number): Pass => ({
  places: places.filter((_, i) => Math.floor(i / lines) >= from && Math.floor(i / lines) <= to),
  isAcross: false,
});

/** Each pass some millimetres higher or lower than the first and pitched by about a hundredth along its run. */
function readIn(passes: readonly Pass[], seed: number, noise = noiseMm) {
  const random = seededRandom(seed);
  const shape = seededShape(random);
  const readings = passes.flatMap((pass, setup) => {
    const [highMm, slope] = [3 * random.normal(), 0.01 * random.normal()];
    return pass.places.map(({ xMm, yMm }): Omit<Reading, "row"> => {
      const offMm = highMm + slope * (pass.isAcross ? yMm : xMm);
      const gaugeMm = heightMm(plan, shape, xMm, yMm) + offMm + noise * random.normal();
      return { xMm, yMm, gaugeMm, line: null, mark: null, setup };
    });
  });
  const read: Readings = {
    stage: "checked",
    readings: readings.map((reading, i) => ({ row: i + 2, ...reading })),
    setups: passes.map((_, i) => `placing ${i + 1}`),
  };
  const answer = fitUnwornSurface(read, violin, pointGauge);
  if (answer.outcome === "not-fitted") throw new Error(answer.why);
  return { shape, surface: answer.surface, compensated: answer.compensated };
}

type BoardRead = ReturnType<typeof readIn>;

const fortyBoards = (passes: readonly Pass[]) => Array.from({ length: 40 }, (_, k) => readIn(passes, k + 1));

/**
 * On how many boards a figure lies within what is said of it, k = 2: 95 % of 40 is 38; fewer than 33 is what chance leaves once in 500
 * (binomial), more is what uncertainties too large would make.
 */
function within(boards: readonly BoardRead[], name: ParameterName): number {
  return boards.filter(({ shape, surface }) => {
    const u = 2 * Math.sqrt(varianceOf(surface, (s) => s[name]));
    return Math.abs(surface.shape[name] - shape[name]) <= u;
  }).length;
}

const fourStrings = [0, 2, 4, 6].map(onLine);
const passesAcross = [0, 5, 10].map(onCrossline);

describe("a board read along its strings, each with its own height and pitch, and three passes across", () => {
  const passes = [...fourStrings, ...passesAcross];
  const boards = fortyBoards(passes);

  test("has every radius told, and its hollow, within what is said of them", () => {
    const names = ["radiusNutMm", "radiusMiddleMm", "radiusEndMm", "hollowLowestMm"] as const;
    for (const name of names) {
      expect(within(boards, name), name).toBeGreaterThanOrEqual(33);
    }
  });

  test("has its radius told to a millimetre, all but its twist", () => {
    for (const { surface } of boards.slice(0, 10)) {
      expect(2 * Math.sqrt(varianceOf(surface, (s) => s.radiusMiddleMm))).toBeLessThan(1);
      // Each pass across has a tilt of its own: nothing ties the tilt at the nut to that at the end.
      expect(surface.assumed).toEqual(["twist"]);
    }
  });

  test("is brought to one frame: where strings and passes cross they read the same", () => {
    const { compensated, surface } = readIn(passes, 6);
    const along = compensated.readings.filter(({ setup }) => setup < 4);
    const across = compensated.readings.filter(({ setup }) => setup >= 4);
    const differences = across.flatMap((one) =>
      along
        .filter(({ xMm, yMm }) => xMm === one.xMm && yMm === one.yMm)
        .map(({ heightMm: other }) => one.heightMm - other),
    );
    expect(differences.length).toBe(12);
    const rms = Math.sqrt(differences.reduce((sum, d) => sum + d * d, 0) / differences.length);
    // The difference of two readings: √2 of the noise, known to a fifth from twelve; they were up to 8 mm apart.
    expect(rms).toBeLessThan(Math.SQRT2 * noiseMm * 1.5);
    near(surface.noiseMm, noiseMm, 0.4 * noiseMm);
  });

  test("read without noise is the board, in the frame of its first placing", () => {
    const { shape, surface } = readIn(passes, 7, 0);
    // What is known beforehand weighs nothing against readings without noise, but twist, which they can't tell.
    for (const name of ["radiusNutMm", "radiusMiddleMm", "radiusEndMm"] as const) {
      near(surface.shape[name], shape[name], 0.02, name);
    }
  });
});

describe("a board read along its four strings without a pass across", () => {
  const boards = fortyBoards(fourStrings);

  test("has its camber assumed: nothing ties the strings to each other", () => {
    for (const { surface } of boards) expect(surface.assumed).toContain("camber");
  });

  test("has its hollow told all the same, within what is said of it", () => {
    expect(within(boards, "hollowLowestMm")).toBeGreaterThanOrEqual(33);
  });

  test("gets no plan and no decision about wood, and is told why", () => {
    const recipe = syntheticBoard("violin", "7 x 11", 12, true);
    const { crosslinesMm } = recipe.rounds;
    const setUps = recipe.plan.strings.map(
      (string, i): SetUp => ({ label: `over ${string}`, crosslinesMm, lines: [string], heightMm: i, slope: 0.004 * i }),
    );
    const made = makeBoard({ ...recipe, rounds: { ...recipe.rounds, setUps } });
    const { surface, planing, verdict, readings } = examineFiles(made.readingsCsv, null);
    expect(readings.setups).toBe(4);
    expect(surface.assumed).toContain(assumedInWords.camber);
    expect(planing).toBeNull();
    expect(verdict.decision).toBe("undecided");
  });
});

describe("a long board read in two halves, the rail laid anew", () => {
  test("that overlap by three crosslines has all told as if it were laid once, within what is said", () => {
    const boards = fortyBoards([onRows(0, 6), onRows(4, 10)]);
    for (const { surface } of boards) expect(surface.assumed).toEqual([]);
    for (const name of ["radiusMiddleMm", "hollowLowestMm", "hollowHighestMm"] as const) {
      expect(within(boards, name), name).toBeGreaterThanOrEqual(33);
    }
  });

  test("that don't overlap says so in its hollow: less certain than with an overlap", () => {
    const uOf = (passes: readonly Pass[]) => Math.sqrt(varianceOf(readIn(passes, 2).surface, (s) => s.hollowLowestMm));
    expect(uOf([onRows(0, 5), onRows(6, 10)])).toBeGreaterThan(1.2 * uOf([onRows(0, 6), onRows(4, 10)]));
  });
});
