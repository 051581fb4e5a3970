/**
 * Numbers as words: the only place in the page that rounds.
 *
 * Lengths in mm -> text. Depths to 0.01 mm, places along the board to 1 mm, thickness to 0.01 mm. A true minus sign, and a
 * hyphen-free range, as printed tables have them.
 */

const minus = "\u2212";
const noBreak = "\u00a0";

function fixed(value: number, digits: number): string {
  const text = Math.abs(value).toFixed(digits);
  const isZero = Number(text) === 0;
  return value < 0 && !isZero ? `${minus}${text}` : text;
}

/** A depth, cut or thickness in mm to two decimals: 0.43. */
export const depthText = (mm: number): string => fixed(mm, 2);

/** A depth in hundredths of a millimetre, as a sounding: 43. */
export const soundingText = (mm: number): string => fixed(mm * 100, 0);

/** A place along or across the board to the millimetre: 70. */
export const placeText = (mm: number): string => fixed(mm, 0);

/** A depth with its uncertainty, or the least it can be where the tip may not have reached the bottom. */
export const depthWords = (mm: number, u: number, atLeast: boolean): string =>
  atLeast ? `at least ${depthText(mm)}` : measuredText(mm, u);

/** A radius to a tenth: 65.0, 66.5. */
export const radiusText = (mm: number): string => fixed(mm, 1);

/** A setting's number as a workshop writes it, with no more digits than it has: 1.5, 0.25, 65. */
export const settingText = (value: number): string => String(Number(value.toFixed(3))).replace("-", minus);

/** From and to, to a tenth: 63.0–67.0. */
export const radiusRangeText = (fromMm: number, toMm: number): string => `${radiusText(fromMm)}–${radiusText(toMm)}`;

/** A quantity with its expanded uncertainty: 0.43 ± 0.02. A measured value never shows ± 0.00. */
export const measuredText = (mm: number, u: number): string =>
  `${depthText(mm)}${noBreak}±${noBreak}${uncertaintyText(u)}`;

/** An expanded uncertainty, rounded up, so that rounding never makes a reading look surer than it is. */
export const uncertaintyText = (u: number): string => fixed(Math.ceil(Math.abs(u) * 100 - 1e-6) / 100, 2);

/** A radius with its uncertainty to a tenth: 66.4 ± 0.6. */
export const measuredRadiusText = (mm: number, u: number): string =>
  `${fixed(mm, 1)}${noBreak}±${noBreak}${fixed(Math.ceil(Math.abs(u) * 10 - 1e-6) / 10, 1)}`;

/** From and to, in hundredths: 0.90–1.30. */
export const depthRangeText = (fromMm: number, toMm: number): string => `${depthText(fromMm)}–${depthText(toMm)}`;

/** From and to along the board: 40–260. */
export const placeRangeText = (fromMm: number, toMm: number): string => `${placeText(fromMm)}–${placeText(toMm)}`;

/** A factor of exaggeration: × 24. */
export const factorText = (factor: number): string =>
  `×${noBreak}${Number.isInteger(factor) ? fixed(factor, 0) : fixed(factor, 1)}`;

/** A volume as wood lost or planed: 8.4 cm³. */
export const volumeText = (mm3: number): string => `${fixed(mm3 / 1000, 1)} cm³`;

/** A depth contour's label: as few digits as say it (0.05, 0.1). */
export const contourText = (mm: number): string => String(Number(Math.abs(mm).toFixed(3)));

/** The scatter of the readings, finer than a depth since it is a tenth of one: 0.011 mm. */
export const scatterText = (mm: number): string => `${fixed(mm, 3)}${noBreak}mm`;
