/**
 * The same board however its set-ups are named, in whatever order they were read, and however high and pitched the rail lay in
 * each of them: a cello read along its strings in two placings of the rail and three passes across, through the whole examination.
 */
import { describe, expect, test } from "vitest";
import { makeBoard } from "../../data/make/board.ts";
import { celloAlongStrings } from "../../data/make/store/laidAnew.ts";
import type { Examination } from "../../server/core/examination.ts";
import { differences } from "../support/differences.ts";
import { examineFiles } from "../support/examineMade.ts";
import { inPlaceOrder } from "../support/mirrored.ts";

/** What another order of adding up makes, times the fit's condition; the plan stands still at 1e-7. As in sameBoard.test.ts. */
const tolerance = 1e-6;

// Read with a point: a ball rolls on the slopes that the frame has, and the frame is the first placing's.
const made = makeBoard({
  ...celloAlongStrings.recipe,
  probe: { ...celloAlongStrings.recipe.probe, tipRadiusMm: 0 },
});
const settings = made.readingsCsv
  .split("\n")
  .filter((line) => line.startsWith("#") && !line.includes("tip_radius"))
  .concat("# tip_radius: 0");

/**
 * What the draws of the least cut go into. They are taken by way of a root of the surface's covariance, which turns its last ten digits
 * into five: other columns of the fit, other draws in the fifth digit. Seen: 0.0001 in a cut known to 0.025.
 */
const isDrawn = (path: string): boolean =>
  path.startsWith("planing.planeOffMm") || /^(thickness|verdict\.reasons)\..*\bu$/.test(path);
const drawnTolerance = 3e-4;

type Row = { readonly xMm: number; readonly yMm: number; readonly heightMm: number; readonly setUp: string };

const rows: readonly Row[] = made.truth.readings.map(({ crosslineMm, yMm, readMm, setUp }) => ({
  xMm: crosslineMm,
  yMm,
  heightMm: readMm,
  setUp: setUp ?? "",
}));
const labels = [...new Set(rows.map(({ setUp }) => setUp))];

/** The examination of these rows, its points in the order that `rows` has them. */
function examined(told: readonly Row[]) {
  const text = [
    ...settings,
    "x,y,height,setup",
    ...told.map(({ xMm, yMm, heightMm, setUp }) => `${xMm},${yMm},${heightMm},${setUp}`),
  ].join("\n");
  return comparable(examineFiles(text, made.thicknessCsv));
}

function comparable(examination: Examination) {
  const { planing, points } = examination;
  return {
    ...examination,
    planing: planing && { ...planing, governedBy: inPlaceOrder(planing.governedBy) },
    points: points.map(({ row: _, ...point }) => point),
  };
}

const board = examined(rows);

test("the board has five set-ups, is worn and gets a plan", () => {
  expect(labels.length).toBe(5);
  expect(board.readings.setups).toBe(5);
  expect(board.wornPlaces.length).toBeGreaterThan(2);
  expect(board.planing).not.toBeNull();
});

describe("the same answer, word for word:", () => {
  test("set-ups named otherwise", () => {
    const renamed = rows.map((row) => ({ ...row, setUp: `rail ${9 - labels.indexOf(row.setUp)}` }));
    expect(differences(examined(renamed), board, tolerance)).toEqual([]);
  });

  test("set-ups read in another order", () => {
    const order = [3, 1, 4, 0, 2].flatMap((at) => rows.flatMap((row, i) => (row.setUp === labels[at] ? [i] : [])));
    const other = examined(order.map((i) => rows[i]!));
    const points = rows.map((_, i) => other.points[order.indexOf(i)]);
    expect(differences({ ...other, points }, board, tolerance, isDrawn)).toEqual([]);
    expect(differences({ ...other, points }, board, drawnTolerance)).toEqual([]);
  });

  test.each(labels.slice(1))("the placing '%s' 2 higher and 4 in a thousand steeper along its run", (label) => {
    const isAcross = label.startsWith("across");
    const moved = rows.map((row) =>
      row.setUp === label ? { ...row, heightMm: row.heightMm + 2 + 0.004 * (isAcross ? row.yMm : row.xMm) } : row,
    );
    expect(differences(examined(moved), board, tolerance)).toEqual([]);
  });

  test("the first placing, whose frame is the board's, 2 higher and 4 in a thousand steeper: all but the heights", () => {
    const moved = rows.map((row) =>
      row.setUp === labels[0] ? { ...row, heightMm: row.heightMm + 2 + 0.004 * row.xMm } : row,
    );
    const { points, profiles: _, sections: __, ...rest } = examined(moved);
    const { points: pointsBefore, profiles: ___, sections: ____, ...restBefore } = board;
    expect(differences(rest, restBefore, tolerance)).toEqual([]);
    const frameFree = (all: typeof points) => all.map(({ wearMm, cutMm }) => ({ wearMm, cutMm }));
    expect(differences(frameFree(points), frameFree(pointsBefore), tolerance)).toEqual([]);
  });
});
