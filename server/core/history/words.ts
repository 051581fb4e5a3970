/**
 * Decisions, depths and days in a luthier's words, for what history says. Lengths in mm, to 0.01; an uncertainty is rounded up.
 */
import type { Decision } from "../examination.ts";
import { plusMinus } from "../thickness/sayings.ts";
import type { Quantity } from "../units.ts";

export const decisionInWords: Readonly<Record<Decision, string>> = {
  leave: "leave as it is",
  dress: "dress",
  shape: "shape",
  borderline: "too close to call",
  replace: "new board",
  undecided: "can't say yet",
  restorer: "to a restorer first",
  cause: "find the cause first",
};

const months = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
];

/** "2026-05-03" -> "3 May 2026". */
export function dayInWords(date: string): string {
  return `${Number(date.slice(8, 10))} ${monthInWords(date)}`;
}

/** "2026-05-03" -> "May 2026". */
export function monthInWords(date: string): string {
  return `${months[Number(date.slice(5, 7)) - 1]} ${date.slice(0, 4)}`;
}

/** 0.2149 -> "0.21 mm"; a true minus sign, and no "−0.00". */
export function lengthInWords(lengthMm: number): string {
  return `${hundredths(lengthMm)} mm`;
}

/** { value: 0.2149, u: 0.0121 } -> "0.21 ± 0.02 mm". */
export function quantityInWords({ value, u }: Quantity): string {
  return `${hundredths(value)} ${plusMinus(u)} mm`;
}

/** A rate, to two figures that count: 0.0432 -> "0.043 mm". */
export function rateInWords(mm: number): string {
  const decimals = Math.abs(mm) >= 0.1 ? 2 : 3;
  return `${mm.toFixed(decimals)} mm`;
}

/** "1 dressing", "3 dressings". */
export function countInWords(count: number, one: string): string {
  return `${count} ${one}${count === 1 ? "" : "s"}`;
}

function hundredths(lengthMm: number): string {
  const rounded = Math.round(lengthMm * 100) / 100;
  return rounded < 0 ? `−${Math.abs(rounded).toFixed(2)}` : Math.abs(rounded).toFixed(2);
}
