/**
 * The files as a bench writes them: settings at the head, then a list or a grid; thickness as a list.
 *
 * Heights in the unit of the recipe, comma or point as the bench's spreadsheet has it.
 */
import type { ReadingTruth } from "./board.ts";
import type { ThicknessTruth } from "./calliper.ts";
import { railErrorMm } from "./disturbances.ts";
import type { GapRead } from "./gaps.ts";
import type { Line, Recipe, Writing } from "./recipe.ts";

/** @param again readings of cells that were read once more, after the round. */
export function readingsText(recipe: Recipe, round: readonly ReadingTruth[], again: readonly ReadingTruth[]): string {
  const { writing } = recipe;
  const settings = settingLines(writing);
  const rows = writing.file === "list" ? listRows(recipe, [...round, ...again]) : gridRows(recipe, round, again);
  return asText(writing, settings, rows);
}

export function thicknessText(writing: Writing, thickness: readonly ThicknessTruth[]): string {
  const rows = thickness.map(({ xMm, side, readMm }) => [
    numberText(writing, xMm),
    side,
    numberText(writing, Number(readMm.toFixed(2)), 2),
  ]);
  return asText(writing, [], [["x", "side", "thickness"], ...rows]);
}

/** Gaps along strings and under templates in one file: what does not belong to one kind stays empty. */
export function gapsText({ writing }: Recipe, gaps: readonly GapRead[]): string {
  const rows = gaps.map((gap) => {
    const gapText = numberText(writing, gap.gapMm, 2);
    return gap.under === "straightedge"
      ? [gap.string, numberText(writing, gap.xMm), "", gapText, ""]
      : ["", numberText(writing, gap.xMm), numberText(writing, gap.yMm), gapText, numberText(writing, gap.radiusMm)];
  });
  return asText(writing, settingLines(writing), [["line", "x", "y", "gap", "template"], ...rows]);
}

/** The rail's error as its survey found it, x and error and its expanded uncertainty; null where there is none. */
export function railText(recipe: Recipe): string | null {
  const rail = recipe.bench?.rail;
  if (rail === undefined) return null;
  const { writing } = recipe;
  const rows = rail.surveyedAtMm.map((xMm) => [
    numberText(writing, xMm),
    numberText(writing, railErrorMm(recipe, xMm), 3),
    numberText(writing, rail.expandedUMm, 3),
  ]);
  return asText(writing, [], [["x", "error", "u"], ...rows]);
}

/** Columns for the set-up and for marks stand only where there are any. */
function listRows(recipe: Recipe, readings: readonly ReadingTruth[]): string[][] {
  const { writing } = recipe;
  const named = readings.some(({ line }) => typeof line === "string");
  const hasSetUps = readings.some(({ setUp }) => setUp !== undefined);
  const hasMarks = readings.some(({ isCheck }) => isCheck);
  const rows = readings.map((reading) => [
    numberText(writing, reading.crosslineMm),
    typeof reading.line === "string" ? reading.line : numberText(writing, reading.yMm),
    heightText(writing, reading.readMm),
    ...(hasSetUps ? [reading.setUp ?? ""] : []),
    ...(hasMarks ? [reading.isCheck ? "check" : ""] : []),
  ]);
  const header = ["x", named ? "line" : "y", "height", ...(hasSetUps ? ["setup"] : []), ...(hasMarks ? ["mark"] : [])];
  return [header, ...rows];
}

/** Cells read again stand in further rows of the same crossline. */
function gridRows(recipe: Recipe, round: readonly ReadingTruth[], again: readonly ReadingTruth[]): string[][] {
  const { writing, rounds } = recipe;
  const header = ["x", ...rounds.lines.map((line) => columnName(writing, line))];
  const rowsOf = (readings: readonly ReadingTruth[]): string[][] =>
    rounds.crosslinesMm
      .filter((xMm) => readings.some(({ crosslineMm }) => crosslineMm === xMm))
      .map((xMm) => [
        numberText(writing, xMm),
        ...rounds.lines.map((line) => {
          const reading = readings.find((one) => one.crosslineMm === xMm && one.line === line);
          return reading === undefined ? "" : heightText(writing, reading.readMm);
        }),
      ]);
  return [header, ...rowsOf(round), ...rowsOf(again)];
}

const settingLines = (writing: Writing): readonly string[] =>
  writing.settings.map(([key, text]) => `# ${key}: ${settingText(writing, text)}`);

/** A bench with a decimal comma writes it in its settings too; a unit such as 0.01mm is a word, not a number. */
function settingText(writing: Writing, text: string): string {
  return /^-?\d+\.\d+$/.test(text) ? text.replace(".", writing.decimal) : text;
}

function columnName(writing: Writing, line: Line): string {
  if (typeof line === "object") throw new Error("a line that fans out has no one y to head a column with");
  return typeof line === "string" ? line : numberText(writing, line);
}

function heightText(writing: Writing, heightMm: number): string {
  return numberText(writing, heightMm / writing.unitMm, writing.decimals);
}

/** A number as written, with so many decimals, or with as many as it has. */
function numberText(writing: Writing, number: number, decimals?: number): string {
  const text = decimals === undefined ? String(number) : number.toFixed(decimals);
  return text.replace(".", writing.decimal);
}

function asText(writing: Writing, settings: readonly string[], rows: readonly (readonly string[])[]): string {
  return `${[...settings, ...rows.map((cells) => cells.join(writing.separator))].join("\n")}\n`;
}
