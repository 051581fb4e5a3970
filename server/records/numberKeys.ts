/**
 * Two keys of an instrument's number: what must be unique of it, and what typing is held against.
 *
 * "C-07", "c-07" and "C - 07" are one number (NFKC, lower case, no spaces); to find it, dashes need not be typed either. Dashes do
 * count for being unique: 1-12 and 11-2 are two instruments.
 */
export function numberKey(number: string): string {
  return number.normalize("NFKC").toLowerCase().normalize("NFKC").replaceAll(/\s/gu, "");
}

export function findKey(number: string): string {
  return numberKey(number).replaceAll(/[\p{Pd}\u2212_]/gu, "");
}
