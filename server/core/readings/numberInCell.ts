/**
 * A cell -> the number in it, or the reason why there is none, told so that the cell can be mended.
 *
 * Accepted: decimal point; decimal comma unless commas separate the cells; a leading + or −
 * (hyphen, U+2212 or en dash); exponents; "mm" behind the number (whether that fits the file's unit is for the check).
 * Anything that could be read two ways is refused, never guessed.
 */
import { shownSafely } from "./shownSafely.ts";

/** No number is longer. What follows looks again and again at a cell, which would take seconds of one of 100,000 characters. */
const longestNumber = 100;

export type NumberInCell =
  | { readonly outcome: "number"; readonly value: number; readonly unit: "mm" | null }
  | { readonly outcome: "empty" }
  | { readonly outcome: "none"; readonly code: string; readonly saw: string; readonly remedy: string };

const plain = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?$/;

const empty: NumberInCell = { outcome: "empty" };

export function numberInCell(cell: string, decimalComma: boolean): NumberInCell {
  const text = cell.trim();
  if (text === "") return empty;
  if (plain.test(text)) return finite(text, text, null);

  if (text.length > longestNumber) {
    return none(text, "not-a-number", "Write one number here, or leave the cell empty where there is no reading.");
  }

  const signed = text.replace(/^[\u2212\u2013]\s*/, "-");
  const bare = signed.replace(/\s*mm$/i, "");
  const unit = bare.length < signed.length ? "mm" : null;
  if (plain.test(bare)) return finite(text, bare, unit);
  const pointed = bare.replace(",", ".");
  if (plain.test(pointed)) {
    return decimalComma
      ? finite(text, pointed, unit)
      : none(
          text,
          "decimal-comma",
          "Commas separate the cells of this file, so write a decimal point here, or save the file with semicolons.",
        );
  }
  return refused(text, signed);
}

function finite(text: string, digits: string, unit: "mm" | null): NumberInCell {
  // + 0 turns −0 into 0.
  const value = Number(digits) + 0;
  if (Number.isFinite(value)) return { outcome: "number", value, unit };
  return none(text, "number-too-big", "No length is that big: write the number as it was read.");
}

function refused(text: string, signed: string): NumberInCell {
  if (text.includes("\uFFFD"))
    return none(text, "not-utf8", "Save the file as CSV with UTF-8 encoding, or type this cell anew.");
  if (/^[+-]?(?:nan|inf|infinity|n\/?a|null|none|#.*|-+|\?+)$/i.test(signed)) {
    return none(text, "not-a-number", "Write the number, or leave the cell empty where there is no reading.");
  }
  if (/^[+-]?\d{1,3}(?:[.,'’\s]\d{3})+(?:[.,]\d+)?$/.test(signed)) {
    return none(
      text,
      "thousands-separator",
      "Write the number without a mark between the thousands, with one decimal point.",
    );
  }
  if (/^[+-]?[\dOoIl]*[.,]?[\dOoIl]+$/.test(signed) && /\d|[.,]/.test(signed)) {
    return none(
      text,
      "letter-in-number",
      "A letter stands where a digit should (O for 0, l or I for 1): type the digit.",
    );
  }
  if (/^[+-]?[\d.,]+(?:[eE][+-]?\d+)?\s*(?:cm|m|in|inch|inches|″|”|''|'|thou|mil|[uµμ]m)$/i.test(signed)) {
    return none(
      text,
      "unit-in-cell",
      "Write the number alone, and the unit once for all in a line such as `# unit: in` above the header.",
    );
  }
  if (looksLikeDate(text)) {
    return none(
      text,
      "date-in-cell",
      "A spreadsheet has taken the number for a date: set the column to plain numbers or text, and type it anew.",
    );
  }
  if (/^[+-]?(?:\d+\s+)?\d+\/\d+$/.test(signed)) {
    return none(text, "not-a-number", "Write the fraction as a decimal number, e.g. 0.5 for 1/2.");
  }
  return none(text, "not-a-number", "Write one number here, or leave the cell empty where there is no reading.");
}

function looksLikeDate(text: string): boolean {
  const digits = /^\d{1,4}([./-])\d{1,2}\1(?:\d{2}|\d{4})?$/;
  const month = /^(?:\d{1,2}[.\s-]{1,2}[A-Za-zä]{3,9}\.?|[A-Za-zä]{3,9}\.?[\s-]\d{1,4})$/;
  return digits.test(text) || month.test(text);
}

function none(text: string, code: string, remedy: string): NumberInCell {
  return { outcome: "none", code, saw: shownSafely(text), remedy };
}
