/**
 * The whole examination: what it leaves alone, what it tells, and that the same board told otherwise is the same board.
 * Boards are made by the independent generator, read with a point, noise 0.01 mm. Lengths in mm.
 */
import { describe, expect, test } from "vitest";
import { makeBoard, withWood } from "../../../data/make/board.ts";
import type { Examination } from "../../../server/core/examination.ts";
import { type Examined, examine } from "../../../server/core/examine.ts";
import { faultInWords } from "../../../server/core/fault.ts";
import { readReadingsFile } from "../../../server/core/readings/readReadingsFile.ts";
import { readThicknessFile } from "../../../server/core/readings/readThicknessFile.ts";
import { loadInstrumentTable } from "../../../server/instrumentTable.ts";
import { near } from "../../support/near.ts";
import { evenEdges, syntheticBoard } from "../../support/syntheticBoards.ts";

const table = loadInstrumentTable();

function given(readings: string, thickness: string | null, settings: Readonly<Record<string, string>> = {}) {
  return {
    readings: readReadingsFile(readings),
    thickness: thickness === null ? null : readThicknessFile(thickness),
    rail: null,
    settings: Object.entries(settings).map(([key, value]) => ({ key, value, where: "settings" as const, line: null })),
    table,
    version: "test",
  };
}

function examined(readings: string, thickness: string | null, settings: Readonly<Record<string, string>> = {}) {
  const answer = examine(given(readings, thickness, settings));
  if (answer.outcome === "faulty") throw new Error(answer.faults.map(faultInWords).join("\n"));
  return answer.examination;
}

function faultCodes(answer: Examined): readonly string[] {
  return answer.outcome === "faulty" ? answer.faults.map(({ code }) => code) : [];
}

// Every fourth synthetic board is read with a point.
const recipe = syntheticBoard("cello", "7 x 11", 44, true);
const made = withWood(makeBoard(recipe), recipe, evenEdges(recipe.plan, 6.4));
const board = { readings: made.readingsCsv, thickness: made.thicknessCsv ?? "" };
const base = examined(board.readings, board.thickness);

type Row = { readonly xMm: number; readonly yMm: number; readonly heightMm: number };

/** The board's readings as numbers, and written again as a list after some change, under the same settings. */
const rows: readonly Row[] = base.points.map(({ givenXMm, givenYMm }, i) => ({
  xMm: givenXMm,
  yMm: givenYMm,
  heightMm: made.truth.readings[i]!.readMm,
}));
const settingLines = board.readings.split("\n").filter((line) => line.startsWith("#"));

function asList(readings: readonly Row[], settings: readonly string[] = settingLines, unit = 1): string {
  const lines = readings.map(({ xMm, yMm, heightMm }) => `${xMm},${yMm},${(heightMm / unit).toFixed(8)}`);
  return [...settings, "x,y,height", ...lines].join("\n");
}

/** The same wear at the same readings (in the given order), the same cut, the same hollows, the same decision. */
function sameAnswer(other: Examination, orderOfRows: readonly number[], toleranceMm: number, mirrored = false): void {
  orderOfRows.forEach((k, i) => {
    near(other.points[i]!.wearMm, base.points[k]!.wearMm, toleranceMm, `wear at reading ${k}`);
  });
  const planing = [base, other].map(({ planing: plan }) => plan!.planeOffMm);
  near(planing[1]!.ofReadings, planing[0]!.ofReadings, 3 * toleranceMm, "plane-off depth");
  near(other.deepest!.depthMm, base.deepest!.depthMm, toleranceMm, "deepest wear");
  const hollows = other.surface.hollows.map(({ hollowMm }) => hollowMm.value);
  if (mirrored) hollows.reverse();
  base.surface.hollows.forEach(({ hollowMm, string }, i) => {
    near(hollows[i]!, hollowMm.value, 3 * toleranceMm, `hollow under ${string}`);
  });
  expect(other.verdict.decision).toBe(base.verdict.decision);
  expect(other.wornPlaces.length).toBe(base.wornPlaces.length);
}

const inOrder = rows.map((_, i) => i);

describe("the same board told otherwise has the same wear, cut and verdict:", () => {
  test("as a list with places in numbers instead of names", () => {
    // Heights to 1e-8; the fit stands still at a thousandth of the noise, 1e-5.
    sameAnswer(examined(asList(rows), board.thickness), inOrder, 1e-4);
  });

  test("its rows reversed", () => {
    const reversed = [...inOrder].reverse();
    sameAnswer(examined(asList(reversed.map((i) => rows[i]!)), board.thickness), reversed, 1e-4);
  });

  test("its rows shuffled", () => {
    const order = inOrder.map((i) => (i * 29) % rows.length);
    expect(new Set(order).size).toBe(rows.length);
    sameAnswer(examined(asList(order.map((i) => rows[i]!)), board.thickness), order, 1e-4);
  });

  test("its heights in inches", () => {
    // Heights to 1e-8 in: 2.5e-7 mm.
    sameAnswer(examined(asList(rows, [...settingLines, "# unit: in"], 25.4), board.thickness), inOrder, 1e-4);
  });

  test("read as depths below the gauge", () => {
    const depths = rows.map((row) => ({ ...row, heightMm: 30 - row.heightMm }));
    sameAnswer(examined(asList(depths, [...settingLines, "# reads: depth"]), board.thickness), inOrder, 1e-4);
  });

  test("held higher and pitched in the gauge", () => {
    const pitched = rows.map((row) => ({ ...row, heightMm: row.heightMm + 3 - 0.004 * row.xMm }));
    sameAnswer(examined(asList(pitched), board.thickness), inOrder, 1e-4);
  });

  test("rolled a little in the gauge", () => {
    const rolled = rows.map((row) => ({ ...row, heightMm: row.heightMm + 0.002 * row.yMm }));
    // A roll of an arc is a shift of its crown to first order; what is left goes with 0.002² and the hollow's own slope.
    sameAnswer(examined(asList(rolled), board.thickness), inOrder, 1e-3);
  });

  test("mirrored, its strings and hollows with it", () => {
    const mirroredSettings = settingLines
      .filter((line) => !line.startsWith("# hollow_lowest") && !line.startsWith("# hollow_highest"))
      .concat("# hollow_lowest: 1", "# hollow_highest: 1.5");
    const mirrored = rows.map((row) => ({ ...row, yMm: -row.yMm }));
    const sides = board.thickness
      .replaceAll("bass", "other")
      .replaceAll("treble", "bass")
      .replaceAll("other", "treble");
    // Readings are gathered into cells to judge their neighbourhood; mirrored they may fall on the other side of a cell's rim,
    // which changes a prior by a hair.
    sameAnswer(examined(asList(mirrored, mirroredSettings), sides), inOrder, 2e-3, true);
  });
});

describe("an examination", () => {
  test("leaves what it is given as it was, and answers the same twice", () => {
    const frozen = deepFrozen(given(board.readings, board.thickness));
    const first = examine(frozen);
    expect(first.outcome).toBe("examined");
    expect(examine(frozen)).toEqual(first);
  });

  test("tells every point in the order of the file, with the line it stands on", () => {
    const firstRow = board.readings.split("\n").findIndex((line) => line.startsWith("x,")) + 2;
    expect(base.points.map(({ row }) => row)).toEqual(inOrder.map((i) => firstRow + i));
    for (const { wearMm, unwornMm, heightMm } of base.points) near(wearMm, unwornMm - heightMm, 1e-12);
  });

  test("has cuts that are never negative and never deeper than the plan's deepest", () => {
    const cuts = base.points.map(({ cutMm }) => cutMm ?? Number.NaN);
    expect(Math.min(...cuts)).toBeGreaterThan(-1e-9);
    // The plan may give up a little depth for its second aim and at the board's ends.
    expect(Math.max(...cuts)).toBeLessThanOrEqual(base.planing!.planeOffMm.ofReadings + 0.005);
  });

  test("leaves after the cut what was there before it less the cut", () => {
    const { places, edgeAfterMm } = base.thickness!;
    near(edgeAfterMm.value, Math.min(...places.map(({ afterMm }) => afterMm!)), 1e-12);
    for (const { beforeMm, afterMm } of places) expect(afterMm).toBeLessThanOrEqual(beforeMm + 0.005);
  });

  test("leaves no edge thicker than it was", () => {
    for (const { beforeMm, afterMm } of base.thickness!.places) expect(afterMm).toBeLessThanOrEqual(beforeMm + 1e-9);
  });

  // close, although another target within the tolerances keeps 0.073.
  test("calls it a dressing where a target within the tolerances keeps every edge clear of its limit", () => {
    const close = examined(board.readings, board.thickness, { edge_limit: "6.06" });
    expect(close.planing?.spares).toBe("thinnest place");
    expect(close.verdict.decision).toBe("dress");
  });

  test("averages the readings of one place in its plan, and tells their spread", () => {
    const again = [...rows, { ...rows[20]!, heightMm: rows[20]!.heightMm + 0.01 }];
    const twice = examined(asList(again), board.thickness);
    // Two readings 0.01 apart: s = 0.01/√2.
    near(twice.readings.repeatSdMm!, 0.01 / Math.SQRT2, 1e-9);
    expect(twice.readings.count).toBe(78);
    expect(base.readings.repeatSdMm).toBeNull();
    expect(twice.readings.crosslines).toBe(11);
    near(twice.planing!.planeOffMm.ofReadings, base.planing!.planeOffMm.ofReadings, 0.01);
  });

  test("without thickness says what is missing and judges no margin", () => {
    const bare = examined(board.readings, null);
    expect(bare.thickness).toBeNull();
    expect(bare.verdict.reasons.map(({ code }) => code)).toContain("thickness-missing");
  });

  test("does not call a board sound where the noise may hide wear that calls for a dressing", () => {
    const noisy = syntheticBoard("violin", "7 x 11", 101, true);
    const rough = makeBoard({ ...noisy, probe: { ...noisy.probe, tipRadiusMm: 0, noiseMm: 0.06 } });
    const wideTolerances = { tip_radius: "0", radius_tolerance: "20", hollow_tolerance: "1" };
    expect(rough.truth.deepestReading.depthMm).toBeGreaterThan(0.2);
    const { verdict } = examined(rough.readingsCsv, null, wideTolerances);
    expect(verdict.reasons.map(({ code }) => code)).not.toContain("sound");
    expect(verdict.decision).not.toBe("leave");
  });

  test("of a board that is said to be loose finds the cause first", () => {
    expect(examined(board.readings, board.thickness, { loose: "yes" }).verdict.decision).toBe("cause");
  });

  test("of a board humped along every string finds the cause first", () => {
    const bent = rows.map((row) => ({
      ...row,
      heightMm: row.heightMm + 2.5 * (1 - ((row.xMm - 290) / 290) ** 2),
    }));
    expect(examined(asList(bent), board.thickness).verdict.decision).toBe("cause");
  });
});

describe("faults", () => {
  test("in readings and thickness are told together", () => {
    const answer = examine(
      given(asList([...rows, { xMm: 9000, yMm: 0, heightMm: 3 }]), `${board.thickness}9000,bass,5\n`),
    );
    if (answer.outcome !== "faulty") throw new Error("examined");
    expect(new Set(answer.faults.map(({ where }) => where))).toEqual(new Set(["readings", "thickness"]));
  });

  test("in settings are told together with those of the file's own making", () => {
    const answer = examine(given(`# no_such_key: 3\n${asList(rows)}\n1,x,y\n`, null, { dress_at: "deep" }));
    if (answer.outcome !== "faulty") throw new Error("examined");
    const { faults } = answer;
    expect(faults.length).toBeGreaterThanOrEqual(3);
    expect(new Set(faults.map(({ where }) => where))).toEqual(new Set(["readings", "settings"]));
  });

  const along = [20, 80, 140, 200, 260, 320, 380, 440, 500, 560];
  const across = [-9, -6, -3, 0, 3, 6, 9];
  const onArc = (xMm: number, yMm: number): Row => ({ xMm, yMm, heightMm: Math.sqrt(65 ** 2 - yMm ** 2) - 60 });
  const grid = (xs: readonly number[], ys: readonly number[]) => xs.flatMap((x) => ys.map((y) => onArc(x, y)));
  const underStrings = (strings: readonly string[], xs: readonly number[]): string =>
    [
      ...settingLines,
      "x,line,height",
      ...xs.flatMap((x) => strings.map((s, k) => `${x},${s},${(5 - 0.1 * k).toFixed(3)}`)),
    ].join("\n");

  test("two strings, one string, four crosslines, five crosslines of four: too few for a survey, enough for a quick look", () => {
    const many = Array.from({ length: 14 }, (_, i) => 20 + 40 * i);
    const files = [
      underStrings(["C", "A"], many),
      underStrings(["G"], many),
      asList(grid(along.slice(0, 4), across)),
      asList(grid(along.slice(0, 5), across.slice(0, 4))),
    ];
    for (const file of files) {
      const { verdict, planing, maps, wornPlaces } = examined(file, null);
      expect([verdict.decision, planing, maps, wornPlaces]).toEqual(["undecided", null, null, []]);
      expect(verdict.quickLook).not.toBeNull();
    }
  });

  test("two readings tell nothing", () => {
    const faults = faultCodes(examine(given(asList(grid(along.slice(0, 2), across.slice(0, 1))), null)));
    expect(faults).toEqual(["part-of-the-board"]);
    const farApart = [onArc(20, 0), onArc(560, 0)];
    expect(faultCodes(examine(given(asList(farApart), null)))).toEqual(["too-few-readings"]);
  });

  test("one line straight along, read at thirty places, tells its hollow and nothing else", () => {
    const places = Array.from({ length: 30 }, (_, i) => onArc(20 + 18 * i, 7));
    const { readings, surface } = examined(asList(places), null);
    expect(readings.enoughFor).toEqual(["hollow"]);
    expect(surface.camberRadiusMm).toEqual({ nut: null, middle: null, end: null });
  });

  test("a grid of seven lines of constant y has seven lines", () => {
    const wavy = grid(along, across).map((row, i) => ({ ...row, heightMm: row.heightMm + 0.01 * Math.sin(i * i) }));
    expect(examined(asList(wavy), null).readings.lines).toBe(7);
  });
});

function deepFrozen<Kind>(value: Kind): Kind {
  // A typed array can't be frozen; that its numbers stay is seen by the second answer.
  if (typeof value !== "object" || value === null || Object.isFrozen(value) || ArrayBuffer.isView(value)) return value;
  Object.freeze(value);
  for (const part of Object.values(value)) deepFrozen(part);
  return value;
}
