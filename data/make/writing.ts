/**
 * The files as a bench writes them: settings at the head, then a list or a grid; thickness as a list.
 *
 * Heights in the unit of the recipe, comma or point as the bench's spreadsheet has it.
 */
import type { ReadingTruth } from "./board.ts";
import type { ThicknessTruth } from "./calliper.ts";
import type { Line, Recipe, Writing } from "./recipe.ts";

/** @param again readings of cells that were read once more, after the round. */
export function readingsText(recipe: Recipe, round: readonly ReadingTruth[], again: readonly ReadingTruth[]): string {
  const { writing } = recipe;
  const settings = writing.settings.map(([key, text]) => `# ${key}: ${settingText(writing, text)}`);
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

function listRows(recipe: Recipe, readings: readonly ReadingTruth[]): string[][] {
  const { writing } = recipe;
  const named = readings.some(({ line }) => typeof line === "string");
  const rows = readings.map((reading) => [
    numberText(writing, reading.crosslineMm),
    typeof reading.line === "string" ? reading.line : numberText(writing, reading.yMm),
    heightText(writing, reading.readMm),
  ]);
  return [["x", named ? "line" : "y", "height"], ...rows];
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
