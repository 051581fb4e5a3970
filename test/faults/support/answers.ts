/**
 * What holds of every answer to files that were handed in, good or mangled: breaches as sentences.
 *
 * An examination: no number that can't be said, a verdict with its reason, fit to be written out. Faults: each names where, what was
 * seen and what to do, in text that upsets no terminal and no page; of a file's lines only such as there are.
 */

import type { Fault } from "../../../server/core/fault.ts";
import type { Examined } from "../../../server/examiner.ts";
import { examinationAsJson } from "../../../server/reports/examinationAsJson.ts";
import { plainText } from "../../../server/reports/plainText.ts";
import type { HandedIn } from "./handedIn.ts";

/** Each of three files lists fifty faults and counts the rest; settings may add one a line. */
const mostFaults = 4 * 51;
/** A quote is cut at 40 characters, and each may be shown by its code. */
const longestWords = 1000;

export function breachesOf(answer: Examined, given: HandedIn): readonly string[] {
  if (answer.outcome === "examined") {
    const { verdict } = answer.examination;
    return [
      ...unspeakable(answer.examination, "examination"),
      ...(verdict.reasons.length > 0 ? [] : ["a verdict without a reason"]),
      ...(/\b(NaN|Infinity|undefined|null)\b/.test(plainText(answer.examination)) ? ["words that are none"] : []),
      ...(isJson([...examinationAsJson(answer.examination)].join("")) ? [] : ["no JSON"]),
    ];
  }
  const linesOf = { readings: linesIn(given.readings), thickness: linesIn(given.thickness), rail: linesIn(given.rail) };
  return [
    ...(answer.faults.length > 0 ? [] : ["faulty without a fault"]),
    ...(answer.faults.length <= mostFaults ? [] : [`${answer.faults.length} faults`]),
    ...(given.isGood ? [`a good file is faulty: ${answer.faults[0]?.saw}`] : []),
    ...answer.faults.flatMap((fault) => faultBreaches(fault, linesOf)),
  ];
}

function faultBreaches(
  fault: Fault,
  linesOf: Readonly<Record<"readings" | "thickness" | "rail", number>>,
): readonly string[] {
  const { where, line, column, code, saw, remedy } = fault;
  const words = saw + remedy;
  const lines = where === "readings" || where === "thickness" || where === "rail" ? linesOf[where] : 0;
  return [
    ...(/^[a-z][a-z0-9-]+$/.test(code) ? [] : [`the code ${code}`]),
    ...(saw.trim() !== "" && remedy.trim() !== "" ? [] : [`${code} without words`]),
    ...(words.length <= longestWords ? [] : [`${code} with ${words.length} characters`]),
    ...(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u.test(words) ? [`${code} shows what can't be seen`] : []),
    ...(/\b(NaN|Infinity|undefined|null|Error)\b/.test(remedy) ? [`${code} speaks of the program: ${remedy}`] : []),
    ...(line === null || (Number.isInteger(line) && line >= 1 && line <= lines)
      ? []
      : [`${code} at line ${line} of ${lines}`]),
    ...(column === null || (Number.isInteger(column) && column >= 1) ? [] : [`${code} at column ${column}`]),
  ];
}

function linesIn(bytes: Uint8Array | null): number {
  return bytes === null ? 0 : new TextDecoder().decode(bytes).split(/\r\n|\n|\r/).length;
}

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

/** NaN, infinities and what is undefined. */
function unspeakable(value: unknown, path: string): readonly string[] {
  if (typeof value === "number") return Number.isFinite(value) ? [] : [`${path} is ${value}`];
  if (value === undefined) return [`${path} is undefined`];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, part]) => unspeakable(part, `${path}.${key}`));
}
