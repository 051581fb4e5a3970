/**
 * One invented board, made and measured: the outside witness for the tool's numbers.
 *
 * In: a recipe. Out: the two files that the bench would hand in, and the truth behind them. Lengths in mm.
 *
 * Nothing here is shared with the tool: the shape is built, worn, probed with a ball and rounded in its own way, so an
 * error in the tool's geometry can't hide in the boards that test it.
 */
import { calliperReadings, type ThicknessTruth } from "./calliper.ts";
import { halfWidthMm, lineYMm } from "./plan.ts";
import { lowerBall } from "./probe.ts";
import { type Random, seededRandom } from "./random.ts";
import type { Line, Probe, Recipe, Wood } from "./recipe.ts";
import { type HeightAt, hollowUnderStringMm, radiusMm, rollRad, unwornSurface } from "./shape.ts";
import { wavesMm } from "./waves.ts";
import { type WearAt, wearField } from "./wear.ts";
import { readingsText, thicknessText } from "./writing.ts";

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
  const readings = made.truth.readings.map((reading) => ({
    ...reading,
    readMm: asRead(recipe.probe, reading.exactMm, random),
  }));
  const first = readings.length - recipe.rounds.repeated.length;
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

  const cells = rounds.crosslinesMm.flatMap((crosslineMm) =>
    rounds.lines.map((line) => ({
      crosslineMm,
      line,
      name: `${crosslineMm} ${typeof line === "object" ? line.share : line}`,
    })),
  );
  unknownCells([...rounds.missing, ...rounds.repeated], cells);
  const taken = cells.filter(({ name }) => !rounds.missing.includes(name));
  const again = cells.flatMap((cell) => rounds.repeated.filter((name) => name === cell.name).map(() => cell));
  const readings = [...taken, ...again].map((cell) => readingAt(recipe, cell, unwornHeightMm, wearMm, random));
  const thickness = recipe.wood === null ? [] : calliperReadings(plan, recipe.wood, wearMm, random);

  const deepest = readings.reduce((deeper, reading) => (reading.shownMm > deeper.shownMm ? reading : deeper));
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
    wornShare: readings.filter((reading) => reading.wearMm > 0.02).length / readings.length,
    readings,
    thickness,
  };
  return {
    readingsCsv: readingsText(recipe, readings.slice(0, taken.length), readings.slice(taken.length)),
    thicknessCsv: recipe.wood === null ? null : thicknessText(recipe.writing, thickness),
    truth,
    unwornHeightMm,
    formMm: wavesMm(plan, shape.waves ?? []),
    wearMm,
  };
}

/** One reading: the ball lowered on the worn board, noise, the nearest step of the gauge. */
function readingAt(
  recipe: Recipe,
  cell: { readonly crosslineMm: number; readonly line: Line },
  unwornMm: HeightAt,
  wearMm: WearAt,
  random: Random,
): ReadingTruth {
  const { plan, probe, rounds } = recipe;
  const worn: HeightAt = (xMm, yMm) => unwornMm(xMm, yMm) - wearMm(xMm, yMm);
  const yMm = lineYMm(plan, cell.line, cell.crosslineMm, rounds.edgeInsetMm);
  const touch = lowerBall(worn, cell.crosslineMm, yMm, probe.tipRadiusMm, finestMarkMm(recipe));
  const unwornTouch = lowerBall(unwornMm, cell.crosslineMm, yMm, probe.tipRadiusMm, 50);
  return {
    crosslineMm: cell.crosslineMm,
    line: cell.line,
    yMm,
    readMm: asRead(probe, touch.heightMm, random),
    exactMm: touch.heightMm,
    touchXMm: touch.xMm,
    touchYMm: touch.yMm,
    unwornMm: unwornMm(touch.xMm, touch.yMm),
    presentMm: worn(touch.xMm, touch.yMm),
    wearMm: wearMm(cell.crosslineMm, yMm),
    shownMm: unwornTouch.heightMm - touch.heightMm,
  };
}

/** A height with the noise of the hand, to the nearest step of the gauge. */
function asRead({ noiseMm, resolutionMm }: Probe, exactMm: number, random: Random): number {
  return Math.round((exactMm + noiseMm * random.normal()) / resolutionMm) * resolutionMm;
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
