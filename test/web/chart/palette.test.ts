/** Paper, ink and shading: no wear is bare paper, and deeper is always further from it. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { lab, rgb } from "d3";
import { expect, test } from "vitest";
import { type MapKind, rampOf, type Scheme, wantsLightText } from "../../../web/chart/palette.ts";

const css = readFileSync(join(import.meta.dirname, "../../../web/style/paper.css"), "utf8");
const papers = [...css.matchAll(/--paper: (#[0-9a-f]+)/g)].map((match) => match[1]!);
const cases = (["paper", "lamp", "print"] as const).flatMap((scheme) =>
  (["wear", "cut", "humps"] as const).map((kind): [Scheme, MapKind] => [scheme, kind]),
);

test.each(cases)("on %s, the %s shading steps evenly away from the paper", (scheme, kind) => {
  const ramp = rampOf(scheme, kind);
  const lightness = Array.from({ length: 11 }, (_, i) => lab(ramp(i / 10)).l);
  const steps = lightness.slice(1).map((l, i) => (scheme === "lamp" ? l - lightness[i]! : lightness[i]! - l));
  // A step below one unit of CIELAB lightness could not be seen.
  expect(Math.min(...steps)).toBeGreaterThan(1);
});

test("no wear is the paper itself, by day and by lamp", () => {
  expect(rgb(rampOf("paper", "wear")(0)).formatHex()).toBe(papers[0]);
  expect(rgb(rampOf("lamp", "wear")(0)).formatHex()).toBe(papers[1]);
});

test("depths past the legend keep its deepest colour, and what is not known stays paper", () => {
  const ramp = rampOf("paper", "wear");
  expect(ramp(1.7)).toBe(ramp(1));
  expect(ramp(Number.NaN)).toBe(ramp(0));
});

test.each(cases)(
  "on %s, text on the %s shading can be read (contrast 4.5 at least, WCAG 2.2, 1.4.3)",
  (scheme, kind) => {
    const ramp = rampOf(scheme, kind);
    for (let share = 0; share <= 1; share += 0.02) {
      const ground = ramp(share);
      const ink = wantsLightText(ground) ? "#ffffff" : "#000000";
      expect(contrast(ground, ink)).toBeGreaterThan(4.5);
    }
  },
);

/** Contrast ratio of two colours, WCAG 2.2. */
function contrast(a: string, b: string): number {
  const [bright, dim] = [luminance(a), luminance(b)].sort((one, other) => other - one) as [number, number];
  return (bright + 0.05) / (dim + 0.05);
}

function luminance(colour: string): number {
  const { r, g, b } = rgb(colour);
  const linear = [r, g, b]
    .map((channel) => channel / 255)
    .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return 0.2126 * linear[0]! + 0.7152 * linear[1]! + 0.0722 * linear[2]!;
}
