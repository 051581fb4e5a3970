/**
 * Reads one setting's value as its description says: a number in its range, a choice, yes or no, names.
 *
 * Numbers take a decimal point or a decimal comma and may end in "mm". The value as written -> the value, or why not
 * and what to write instead.
 */

import { legible } from "./legible.ts";
import type { SettingDescription } from "./settings.ts";
import { parseStringNames } from "./stringNames.ts";

export type SettingValue = number | boolean | string | readonly string[] | readonly number[];

export type Parsed =
  | { readonly outcome: "parsed"; readonly value: SettingValue }
  | { readonly outcome: "refused"; readonly code: string; readonly why: string; readonly remedy: string };

/** Characters; dozens of template radii fit. */
const longestValue = 500;

export function parseSettingValue(description: SettingDescription, written: string): Parsed {
  const text = written.trim();
  if (text === "") return refused("empty-value", "nothing stands there", "Write a value or leave the line out.");
  if (text.length > longestValue) {
    return refused("too-long", "that is too long", `Write at most ${longestValue} characters.`);
  }
  switch (description.takes) {
    case "length":
    case "fraction":
    case "slope":
      return parseNumber(description, text);
    case "lengths":
      return parseNumbers(description, text);
    case "choice":
      return parseChoice(description, text);
    case "yes or no":
      return parseYesOrNo(text);
    case "names":
      return parseStringNames(text);
    case "instrument":
    case "file":
      return { outcome: "parsed", value: text };
  }
}

function parseNumber(description: SettingDescription, text: string): Parsed {
  const number = numberFrom(text, description.takes !== "length");
  if (number === null) {
    const kind = description.takes === "length" ? "a length in mm" : "a plain number";
    return refused("not-a-number", `that is not ${kind}`, `Write ${kind} ${rangeInWords(description)}.`);
  }
  const [least, most] = description.range ?? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  if (number < least || number > most) {
    return refused("out-of-range", "that can't be", `Write a number ${rangeInWords(description)}.`);
  }
  return { outcome: "parsed", value: number };
}

/**
 * Radii separated by blanks, commas, semicolons or slashes. A comma followed by exactly one digit is a decimal comma
 * ("41,5" is one radius, "41,42" are two): templates come in whole or half millimetres, and never below 15.
 */
function parseNumbers(description: SettingDescription, text: string): Parsed {
  const pieces = text
    .replace(/(\d),(\d)(?!\d)/g, "$1.$2")
    .replace(/\s*mm\b/gi, " ")
    .split(/[\s,;/]+/)
    .filter((piece) => piece !== "");
  const numbers: number[] = [];
  for (const piece of pieces) {
    const parsed = parseNumber({ ...description, takes: "length" }, piece);
    if (parsed.outcome === "refused") return { ...parsed, why: `\`${legible(piece)}\`: ${parsed.why}` };
    if (typeof parsed.value === "number" && !numbers.includes(parsed.value)) numbers.push(parsed.value);
  }
  if (numbers.length === 0) return refused("empty-value", "no radius stands there", "Write one radius or more.");
  return { outcome: "parsed", value: numbers };
}

function parseChoice(description: SettingDescription, text: string): Parsed {
  const choices = description.choices ?? [];
  const word = usualWord(text);
  const chosen = choices.find((choice) => choice === word);
  if (chosen !== undefined) return { outcome: "parsed", value: chosen };
  return refused("not-a-choice", "that is not one of the choices", `Write one of: ${choices.join(", ")}.`);
}

/** Other spellings of the choices that a bench may write. */
const spellings: Readonly<Record<string, string>> = {
  '"': "in",
  inch: "in",
  inches: "in",
  thousandth: "thou",
  thousandths: "thou",
  millimetre: "mm",
  millimetres: "mm",
  millimeter: "mm",
  millimeters: "mm",
  "1/100mm": "0.01mm",
};

function usualWord(text: string): string {
  const word = text.toLowerCase().replace(",", ".").replace(/\s+/g, "");
  return spellings[word] ?? word;
}

function parseYesOrNo(text: string): Parsed {
  const word = text.toLowerCase();
  if (word === "yes" || word === "true") return { outcome: "parsed", value: true };
  if (word === "no" || word === "false") return { outcome: "parsed", value: false };
  return refused("not-yes-or-no", "that is neither yes nor no", "Write yes or no.");
}

/** A decimal number with point or comma, and "mm" behind it where a length is meant; null where it is none. */
function numberFrom(text: string, unitless: boolean): number | null {
  const bare = unitless ? text : text.replace(/\s*mm$/i, "");
  const match = /^([+\-−]?)(\d+(?:[.,]\d*)?|[.,]\d+)(?:e([+-]?\d{1,3}))?$/i.exec(bare);
  if (match === null) return null;
  const [, sign = "", digits = "", exponent = "0"] = match;
  const number = Number(`${digits.replace(",", ".")}e${exponent}`);
  return sign === "" || sign === "+" || number === 0 ? number : -number;
}

function rangeInWords(description: SettingDescription): string {
  if (description.range === null) return "";
  const [least, most] = description.range;
  return `from ${least} to ${most}${description.unit === null ? "" : ` (${description.unit})`}`;
}

function refused(code: string, why: string, remedy: string): Parsed {
  return { outcome: "refused", code, why, remedy };
}
