/**
 * Names of strings as a workshop writes them -> names in one spelling.
 *
 * "C G D A", "c,g,d,a", "C/G/D/A" and "CGDA" are the same four strings, lowest first. A name is a letter from A to G,
 * perhaps sharp or flat, perhaps with its octave in scientific pitch ("E2", "B flat", "F#3").
 */
import { legible } from "./legible.ts";
import type { Parsed } from "./settingValue.ts";

export type StringName = {
  /** In the tool's spelling: "F sharp", "B flat", "E2". */
  readonly name: string;
  /** Semitones above C, 0 to 11. */
  readonly semitoneInOctave: number;
  /** Octave in scientific pitch, null where none was written. */
  readonly octave: number | null;
};

const letterSemitones: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** One name, null where it is none. */
export function readStringName(written: string): StringName | null {
  const match = /^([A-G])\s*(sharp|flat|#|♯|b|♭)?\s*(\d)?$/i.exec(written.trim());
  if (match === null) return null;
  const [, letter = "", accidental = "", octave = ""] = match;
  const raised = ["sharp", "#", "♯"].includes(accidental.toLowerCase());
  const lowered = ["flat", "b", "♭"].includes(accidental.toLowerCase());
  const semitone = (letterSemitones[letter.toUpperCase()] ?? 0) + (raised ? 1 : 0) - (lowered ? 1 : 0);
  return {
    name: `${letter.toUpperCase()}${raised ? " sharp" : ""}${lowered ? " flat" : ""}${octave}`,
    semitoneInOctave: (semitone + 12) % 12,
    octave: octave === "" ? null : Number(octave),
  };
}

/** The fewest and the most strings of a bowed instrument that the tool takes. */
const stringCount = { least: 3, most: 7 } as const;

export function parseStringNames(text: string): Parsed {
  const spaced = text.replace(/\s+(sharp|flat)\b/gi, "$1");
  const pieces = spaced.split(/[\s,;/-]+/).filter((piece) => piece !== "");
  const [only] = pieces;
  const written = pieces.length === 1 && only !== undefined && /^[A-G]{3,7}$/.test(only) ? [...only] : pieces;
  const names: string[] = [];
  for (const piece of written) {
    const name = readStringName(piece);
    if (name === null) {
      return {
        outcome: "refused",
        code: "not-a-string-name",
        why: `\`${legible(piece)}\` is not the name of a string`,
        remedy: "Name the strings with letters A to G, lowest first.",
      };
    }
    names.push(name.name);
  }
  if (names.length < stringCount.least || names.length > stringCount.most) {
    return {
      outcome: "refused",
      code: "string-count",
      why: `${names.length} ${names.length === 1 ? "string" : "strings"}`,
      remedy: `Name every string, from ${stringCount.least} to ${stringCount.most} of them, lowest first.`,
    };
  }
  return { outcome: "parsed", value: names };
}
