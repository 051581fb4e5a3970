/**
 * Plans of the usual order for each kind, mm: of no instrument in particular (common practice, no source).
 */
import type { Plan } from "./recipe.ts";

export const violin: Plan = {
  lengthMm: 270,
  widthNutMm: 24,
  widthEndMm: 42,
  stringLengthMm: 328,
  spacingNutMm: 16.5,
  spacingBridgeMm: 33.5,
  strings: ["G", "D", "A", "E"],
};
export const viola: Plan = {
  lengthMm: 295,
  widthNutMm: 25,
  widthEndMm: 46,
  stringLengthMm: 372,
  spacingNutMm: 17,
  spacingBridgeMm: 36,
  strings: ["C", "G", "D", "A"],
};
export const cello: Plan = {
  lengthMm: 580,
  widthNutMm: 31,
  widthEndMm: 63,
  stringLengthMm: 690,
  spacingNutMm: 22,
  spacingBridgeMm: 46.5,
  strings: ["C", "G", "D", "A"],
};
export const smallCello: Plan = {
  lengthMm: 532,
  widthNutMm: 29,
  widthEndMm: 58,
  stringLengthMm: 635,
  spacingNutMm: 20.5,
  spacingBridgeMm: 43,
  strings: ["C", "G", "D", "A"],
};
export const bass: Plan = {
  lengthMm: 850,
  widthNutMm: 43,
  widthEndMm: 88,
  stringLengthMm: 1050,
  spacingNutMm: 30,
  spacingBridgeMm: 84,
  strings: ["E", "A", "D", "G"],
};
