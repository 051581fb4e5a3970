/**
 * The two ways in which a task of the command is refused, as errors that carry words for whoever called.
 *
 * WrongCall: the call itself is wrong (exit 2). Faulty: what it names can't be read, has faults or is refused (exit 1), one
 * message a line.
 */
import { type Fault, faultInWords } from "../core/fault.ts";

export class WrongCall extends Error {}
export class Faulty extends Error {}

export function faulty(faults: readonly Fault[]): Faulty {
  return new Faulty(faults.map((fault) => onOneLine(faultInWords(fault))).join("\n"));
}

/** A setting or a record may hold anything, even a line break or a code that moves the cursor: neither reaches the terminal. */
export function onOneLine(text: string): string {
  return text.replace(/[\p{C}\p{Zl}\p{Zp}]+/gu, " ");
}

/** "ENOENT" and the like; null where it is no error of the system's. */
export function codeOf(error: unknown): string | null {
  return error instanceof Error && "code" in error && typeof error.code === "string" ? error.code : null;
}
