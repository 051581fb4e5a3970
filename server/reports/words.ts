/**
 * Numbers and names of an examination as text for reading: the only rounding outside the page.
 *
 * Depths, cuts and thicknesses to 0.01 mm, as a bench gauge shows them; places along the board to 1 mm. An uncertainty
 * is rounded up, never down (JCGM 100:2008, 7.2.6 allows it: "may be rounded up rather than to the nearest digit").
 */
import type { HollowState, PlaceName, Side } from "../core/examination.ts";
import type { Quantity } from "../core/units.ts";

/** 0.2149 -> "0.21"; a true minus sign, and no "−0.00". */
export function hundredths(lengthMm: number): string {
  const rounded = Math.round(lengthMm * 100) / 100;
  const digits = Math.abs(rounded).toFixed(2);
  return rounded < 0 ? `−${digits}` : digits;
}

/** 0.2149 -> "0.21 mm". */
export function depth(lengthMm: number): string {
  return `${hundredths(lengthMm)} mm`;
}

/** { value: 0.2149, u: 0.0121 } -> "0.21 ± 0.02". */
export function bareQuantity({ value, u }: Quantity): string {
  // A thousandth of a hundredth off, so that 0.03 stored as 0.030000000000000002 does not become 0.04.
  const roundedUpMm = Math.ceil(u * 100 - 1e-3) / 100;
  return `${hundredths(value)} ± ${hundredths(roundedUpMm)}`;
}

/** { value: 0.2149, u: 0.0121 } -> "0.21 ± 0.02 mm". */
export function quantity(measured: Quantity): string {
  return `${bareQuantity(measured)} mm`;
}

/**
 * A limit or the number it is held against, whatever it is: radii (nothing else is above 20 mm) to 0.1 mm, the rest to
 * 0.01 mm. (61.97, 0.41) -> "62.0 ± 0.5 mm", (3.5, null) -> "3.50 mm".
 */
export function measure(valueMm: number, u: number | null): string {
  if (Math.abs(valueMm) <= 20) return u === null ? depth(valueMm) : quantity({ value: valueMm, u });
  const scatter = u === null ? "" : ` ± ${radius(Math.ceil(u * 10 - 1e-3) / 10)}`;
  return `${radius(valueMm)}${scatter} mm`;
}

/** 57.8 -> "58 mm". */
export function distance(lengthMm: number): string {
  return `${Math.round(lengthMm)} mm`;
}

/** 41.97 -> "42.0". */
export function radius(radiusMm: number): string {
  return radiusMm.toFixed(1);
}

/** "on the C string at E, first position". */
export function placeInWords({ string, note, position }: PlaceName): string {
  return `on the ${string} string at ${note}, ${position} position`;
}

export const sideInWords: Readonly<Record<Side, string>> = {
  bass: "bass edge",
  treble: "treble edge",
  centre: "centre",
};

export const stateInWords: Readonly<Record<HollowState, string>> = {
  within: "right",
  shallow: "too shallow",
  deep: "too deep",
  humped: "humped",
};

export { decisionInWords } from "../core/history/words.ts";

/** "1 line", "7 lines". */
export function counted(count: number, thing: string): string {
  return `${count} ${thing}${count === 1 ? "" : "s"}`;
}

/** Breaks at spaces; the first line begins with `first`, the others with as many blanks. */
export function wrapped(text: string, widthChars: number, first = ""): string {
  const room = widthChars - first.length;
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/\s+/).filter((piece) => piece !== "")) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (longer.length > room && line !== "") {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  lines.push(line);
  return lines.map((piece, row) => `${row === 0 ? first : " ".repeat(first.length)}${piece}`).join("\n");
}
