/**
 * What a text in the records may hold, whichever door it comes in by: words that every page, terminal and spreadsheet shows alike.
 *
 * In: a text as somebody wrote it, and how long it may be. Out: the text without blanks around it, or what is wrong with it and what to do,
 * in a luthier's words. Refused: control characters (NUL among them), halves of characters (lone surrogates), marks that
 * turn the direction of writing for what follows (Unicode Standard Annex 9, explicit directional formatting), and what is too long.
 */
import { shownSafely } from "../core/readings/shownSafely.ts";

export type TextRules = {
  /** Most characters (code points, not bytes). */
  readonly most: number;
  /** Whether line breaks and tabs may stand in it. */
  readonly lines: "one" | "many";
};

export type PlainText =
  | { readonly outcome: "plain"; readonly text: string }
  | { readonly outcome: "refused"; readonly code: string; readonly saw: string; readonly remedy: string };

const turnsWriting = /[\u202A-\u202E\u2066-\u2069]/;
/** In one line nothing may be invisible: two numbers that look the same would not be. */
const notInOneLine = /[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Cn}\p{Zl}\p{Zp}]/u;
const notInManyLines = /(?![\n\t])[\p{Cc}\p{Cs}]/u;

export function plainWords(written: string, rules: TextRules): PlainText {
  const text = written.replace(/\r\n?/g, "\n").trim();
  const isMany = rules.lines === "many";
  if (turnsWriting.test(text) || (isMany ? notInManyLines : notInOneLine).test(text)) {
    return {
      outcome: "refused",
      code: "unprintable",
      saw: `${shownSafely(text)} holds characters that can't be shown`,
      remedy: isMany
        ? "Type it anew, with letters, digits, signs and line breaks only."
        : "Type it anew in one line, with letters, digits and signs only.",
    };
  }
  const count = [...text].length;
  if (count > rules.most) {
    return {
      outcome: "refused",
      code: "too-long",
      saw: `${shownSafely(text)} has ${count} characters`,
      remedy: `Write at most ${rules.most}.`,
    };
  }
  return { outcome: "plain", text };
}
