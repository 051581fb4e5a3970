/**
 * One invented board, made and measured: the outside witness for the tool's numbers.
 *
 * In: a recipe. Out: the files that the bench would hand in, and the truth behind them. Lengths in mm.
 *
 * Nothing here is shared with the tool: the shape is built, worn, probed with a ball and rounded in its own way, so an
 * error in the tool's geometry can't hide in the boards that test it.
 */
import { calliperReadings, type ThicknessTruth } from "./calliper.ts";
import { shownTooHighMm } from "./disturbances.ts";
import { gapsRead } from "./gaps.ts";
import { halfWidthMm, lineYMm } from "./plan.ts";
import { lowerBall } from "./probe.ts";
import { type Random, seededRandom } from "./random.ts";
import type { Line, Recipe, SetUp, Wood } from "./recipe.ts";
import { type HeightAt, hollowUnderStringMm, radiusMm, rollRad, unwornSurface } from "./shape.ts";
import { wavesMm } from "./waves.ts";
import { type WearAt, wearField } from "./wear.ts";
import { gapsText, railText, readingsText, thicknessText } from "./writing.ts";

/** One reading as it went into the file, and what is really there. */
export type ReadingTruth = {
  readonly crosslineMm: number;
  readonly line: Line;
  readonly yMm: number;
  /** As written, mm: noise and rounding included. */
  readonly readMm: number;
  /** What a perfect gauge with this tip would read. */
  readonly exactMm: number;
  /** Where the ball touches; the unworn board's height and the present height there. */
  readonly touchXMm: number;
  readonly touchYMm: number;
  readonly unwornMm: number;
  readonly presentMm: number;
  /** Wear at the place read; and as much of it as this ball can show: less in a rut that it can't bottom. */
  readonly wearMm: number;
  readonly shownMm: number;
  /** Which placing of the rail, where it was laid anew; and whether the place was read again to see the gauge's drift. */
  readonly setUp?: string;
  readonly isCheck?: true;
};

export type Truth = {
  readonly radiusMm: { readonly nut: number; readonly middle: number; readonly end: number };
  /** What a straightedge shows on the unworn board, lowest string first. */
  readonly hollowsMm: readonly number[];
  /** Rise of the treble edge over the bass edge at the bridge end, against the nut. */
  readonly twistMm: number;
  /** Deepest wear anywhere on the board; and the deepest that a reading shows, where the ball touches. */
  readonly deepestWear: { readonly depthMm: number; readonly xMm: number; readonly yMm: number };
  readonly deepestReading: { readonly depthMm: number; readonly xMm: number; readonly yMm: number };
  /** Share of the places read with more than 0.02 mm of wear. */
  readonly wornShare: number;
  readonly readings: readonly ReadingTruth[];
  readonly thickness: readonly ThicknessTruth[];
};

export type MadeBoard = {
  readonly readingsCsv: string;
  readonly thicknessCsv: string | null;
  /** The rail's error profile, where the recipe's rail was surveyed. */
  readonly railCsv: string | null;
  readonly truth: Truth;
  readonly unwornHeightMm: HeightAt;
  /** The part of it that is waves of the hand plane. */
  readonly formMm: HeightAt;
  readonly wearMm: WearAt;
};

/** The same board once more, with wood of another thickness under the same surface. */
export function withWood(made: MadeBoard, recipe: Recipe, wood: Wood): MadeBoard {
  const thickness = calliperReadings(recipe.plan, wood, made.wearMm, seededRandom(recipe.seed + 1));
  return {
    ...made,
    thicknessCsv: thicknessText(recipe.writing, thickness),
    truth: { ...made.truth, thickness },
  };
}

/**
 * The same board read once more: the places and the tip of the recipe it was made from, its noise and its seed may be others.
 */
export function readAgain(made: MadeBoard, recipe: Recipe): MadeBoard {
  const random = seededRandom(recipe.seed);
  const { setUps, repeated, checked } = recipe.rounds;
  const readings = made.truth.readings.map((reading, i, all) => {
    const setUp = setUps?.find(({ label }) => label === reading.setUp) ?? null;
    return { ...reading, readMm: asRead(recipe, { ...reading, setUp, shareOfRound: shareOf(i, all.length) }, random) };
  });
  const first = readings.length - repeated.length - (checked ?? []).length;
  return {
    ...made,
    readingsCsv: readingsText(recipe, readings.slice(0, first), readings.slice(first)),
    truth: { ...made.truth, readings },
  };
}

export function makeBoard(recipe: Recipe): MadeBoard {
  const { plan, shape, rounds } = recipe;
  const random = seededRandom(recipe.seed);
  const unwornHeightMm = unwornSurface(plan, shape);
  const wearMm = wearField(plan, recipe.wear);

  const cells = cellsOf(rounds);
  const checked = rounds.checked ?? [];
  unknownCells([...rounds.missing, ...rounds.repeated, ...checked], cells);
  const taken = cells.filter(({ name }) => !rounds.missing.includes(name));
  const again = [
    ...cells.flatMap((cell) => rounds.repeated.filter((name) => name === cell.name).map(() => cell)),
    ...cells.filter(({ name }) => checked.includes(name)).map((cell): Cell => ({ ...cell, isCheck: true })),
  ];
  const readings = [...taken, ...again].map((cell, i, all) =>
    readingAt(recipe, cell, shareOf(i, all.length), unwornHeightMm, wearMm, random),
  );
  const thickness = recipe.wood === null ? [] : calliperReadings(plan, recipe.wood, wearMm, random);

  const noReading = { shownMm: 0, touchXMm: 0, touchYMm: 0 };
  const deepest = readings.reduce(
    (deeper, reading) => (reading.shownMm > deeper.shownMm ? reading : deeper),
    readings[0] ?? noReading,
  );
  const turnedRad = rollRad(plan, shape, plan.lengthMm) - rollRad(plan, shape, 0);
  const truth: Truth = {
    radiusMm: {
      nut: radiusMm(plan, shape, 0),
      middle: radiusMm(plan, shape, plan.lengthMm / 2),
      end: radiusMm(plan, shape, plan.lengthMm),
    },
    hollowsMm: plan.strings.map((string) => hollowUnderStringMm(plan, unwornHeightMm, string)),
    twistMm: plan.widthEndMm * Math.sin(turnedRad),
    deepestWear: deepestOnBoard(recipe, wearMm),
    deepestReading: { depthMm: deepest.shownMm, xMm: deepest.touchXMm, yMm: deepest.touchYMm },
    wornShare: readings.filter((reading) => reading.wearMm > 0.02).length / Math.max(1, readings.length),
    readings,
    thickness,
  };
  const presentMm: HeightAt = (xMm, yMm) => unwornHeightMm(xMm, yMm) - wearMm(xMm, yMm);
  return {
    readingsCsv:
      recipe.look === undefined
        ? readingsText(recipe, readings.slice(0, taken.length), readings.slice(taken.length))
        : gapsText(recipe, gapsRead(recipe, presentMm)),
    thicknessCsv: recipe.wood === null ? null : thicknessText(recipe.writing, thickness),
    railCsv: railText(recipe),
    truth,
    unwornHeightMm,
    formMm: wavesMm(plan, shape.waves ?? []),
    wearMm,
  };
}

type Cell = {
  readonly crosslineMm: number;
  readonly line: Line;
  readonly name: string;
  readonly setUp: SetUp | null;
  readonly isCheck: boolean;
};

/** Every line at every crossline; where the rail was laid anew, each pass in turn. */
function cellsOf(rounds: Recipe["rounds"]): readonly Cell[] {
  const passes = rounds.setUps ?? [null];
  return passes.flatMap((setUp) => {
    const { crosslinesMm, lines } = setUp ?? rounds;
    return crosslinesMm.flatMap((crosslineMm) =>
      lines.map((line): Cell => {
        const name = `${crosslineMm} ${typeof line === "object" ? line.share : line}`;
        return { crosslineMm, line, name: setUp === null ? name : `${setUp.label}: ${name}`, setUp, isCheck: false };
      }),
    );
  });
}

const shareOf = (i: number, count: number): number => i / Math.max(1, count - 1);

/** One reading: the ball lowered on the worn board, what the bench adds, noise, the nearest step of the gauge. */
function readingAt(
  recipe: Recipe,
  cell: Cell,
  shareOfRound: number,
  unwornMm: HeightAt,
  wearMm: WearAt,
  random: Random,
): ReadingTruth {
  const { plan, probe, rounds } = recipe;
  const { setUp } = cell;
  const worn: HeightAt = (xMm, yMm) => unwornMm(xMm, yMm) - wearMm(xMm, yMm);
  const yMm = lineYMm(plan, cell.line, cell.crosslineMm, rounds.edgeInsetMm);
  const touch = lowerBall(worn, cell.crosslineMm, yMm, probe.tipRadiusMm, finestMarkMm(recipe));
  const unwornTouch = lowerBall(unwornMm, cell.crosslineMm, yMm, probe.tipRadiusMm, 50);
  return {
    crosslineMm: cell.crosslineMm,
    line: cell.line,
    yMm,
    readMm: asRead(
      recipe,
      { crosslineMm: cell.crosslineMm, yMm, exactMm: touch.heightMm, setUp, shareOfRound },
      random,
    ),
    exactMm: touch.heightMm,
    touchXMm: touch.xMm,
    touchYMm: touch.yMm,
    unwornMm: unwornMm(touch.xMm, touch.yMm),
    presentMm: worn(touch.xMm, touch.yMm),
    wearMm: wearMm(cell.crosslineMm, yMm),
    shownMm: unwornTouch.heightMm - touch.heightMm,
    ...(setUp === null ? {} : { setUp: setUp.label }),
    ...(cell.isCheck ? { isCheck: true as const } : {}),
  };
}

type Exact = {
  readonly crosslineMm: number;
  readonly yMm: number;
  readonly exactMm: number;
  readonly setUp: SetUp | null;
  readonly shareOfRound: number;
};

/** A height with what the bench adds and the noise of the hand, to the nearest step of the gauge. */
function asRead(recipe: Recipe, { crosslineMm, yMm, exactMm, setUp, shareOfRound }: Exact, random: Random): number {
  const { noiseMm, resolutionMm } = recipe.probe;
  const shownMm = exactMm + shownTooHighMm(recipe, { xMm: crosslineMm, yMm, setUp, shareOfRound });
  return Math.round((shownMm + noiseMm * random.normal()) / resolutionMm) * resolutionMm;
}

/** Width of the narrowest mark, mm. */
function finestMarkMm(recipe: Recipe): number {
  return Math.min(50, ...recipe.wear.map((mark) => (mark.mark === "rut" ? mark.widthMm : 2 * mark.halfWidthMm)));
}

/** Deepest wear on a grid over the whole board: 270 steps along, half-millimetres across. */
function deepestOnBoard(recipe: Recipe, wearMm: WearAt): Truth["deepestWear"] {
  let deepest = { depthMm: 0, xMm: 0, yMm: 0 };
  if (recipe.wear.length === 0) return deepest;
  for (let xMm = 0; xMm <= recipe.plan.lengthMm; xMm += recipe.plan.lengthMm / 270) {
    const halfMm = halfWidthMm(recipe.plan, xMm);
    for (let yMm = -halfMm; yMm <= halfMm; yMm += 0.5) {
      const depthMm = wearMm(xMm, yMm);
      if (depthMm > deepest.depthMm) deepest = { depthMm, xMm, yMm };
    }
  }
  return deepest;
}

/** A cell named in a recipe that is not in its grid is a slip in the recipe. */
function unknownCells(named: readonly string[], cells: readonly { readonly name: string }[]): void {
  const unknown = named.filter((name) => !cells.some((cell) => cell.name === name));
  if (unknown.length > 0) throw new Error(`no such cell: ${unknown.join(", ")}`);
}
