/** Numbers as a reader sees them. */
import { expect, test } from "vitest";
import {
  contourText,
  depthRangeText,
  depthText,
  depthWords,
  factorText,
  measuredText,
  placeText,
  radiusRangeText,
  radiusText,
  scatterText,
  settingText,
  soundingText,
  uncertaintyText,
} from "../../../web/chart/format.ts";

const nb = "\u00a0";

test("a depth has two decimals and a true minus sign, and nothing is minus zero", () => {
  expect(depthText(0.427)).toBe("0.43");
  expect(depthText(-0.427)).toBe("−0.43");
  expect(depthText(-0.004)).toBe("0.00");
});

test("an uncertainty is rounded up: a reading never looks surer than it is", () => {
  expect(uncertaintyText(0.0201)).toBe("0.03");
  expect(uncertaintyText(0.02)).toBe("0.02");
  expect(uncertaintyText(0.001)).toBe("0.01");
  expect(measuredText(0.43, 0.021)).toBe(`0.43${nb}±${nb}0.03`);
});

test("where the tip may not have reached the bottom, the least that a depth can be is said", () => {
  expect(depthWords(0.38, 0.03, true)).toBe("at least 0.38");
  expect(depthWords(0.38, 0.03, false)).toBe(`0.38${nb}±${nb}0.03`);
});

test("a radius has one decimal wherever it stands, a setting as many digits as it was given", () => {
  expect(radiusText(44)).toBe("44.0");
  expect(radiusRangeText(62, 68)).toBe("62.0–68.0");
  expect(settingText(44)).toBe("44");
  expect(settingText(0.25)).toBe("0.25");
});

test("a sounding is hundredths of a millimetre", () => {
  expect(soundingText(0.433)).toBe("43");
  expect(soundingText(-0.03)).toBe("−3");
});

test("places, ranges, factors, contours and noise say no more digits than they have", () => {
  expect(placeText(69.7)).toBe("70");
  expect(depthRangeText(0.9, 1.3)).toBe("0.90–1.30");
  expect(factorText(24)).toBe(`×${nb}24`);
  expect(factorText(2.5)).toBe(`×${nb}2.5`);
  expect(contourText(0.05)).toBe("0.05");
  expect(contourText(0.1)).toBe("0.1");
  expect(contourText(0.30000000000000004)).toBe("0.3");
  expect(scatterText(0.0114)).toBe(`0.011${nb}mm`);
});
