/**
 * The radius of an arc from heights or template gaps across: against the published formula of the circular segment. Lengths in mm.
 *
 * Source: Machinery's Handbook, 31st edition, segments of circles: r = (c² + 4h²)/8h, with its worked examples.
 */
import { describe, expect, test } from "vitest";
import { arcAcross } from "../../../../server/core/quickLook/arcAcross.ts";
import { camberMm } from "../../../../server/core/surface/idealSurface.ts";
import { near } from "../../../support/near.ts";

const segment = (chordMm: number, riseMm: number) =>
  [-chordMm / 2, 0, chordMm / 2].map((yMm) => ({ yMm, heightMm: yMm === 0 ? riseMm : 0 }));

function radiusOf(places: Parameters<typeof arcAcross>[0], heightUMm = 0.01) {
  const arc = arcAcross(places, heightUMm);
  if (arc.outcome !== "arc") throw new Error("no arc");
  return arc.radiusMm;
}

/** Gauss-Newton stands still within 1e-9 of the radius. */
const settled = 1e-7;

describe("three heights across", () => {
  test("chord 16, rise 6: radius 8 1/3, as the handbook has it", () => {
    near(radiusOf(segment(16, 6)).value, 25 / 3, settled);
  });

  test("chord 21, rise 6: radius 12.1875, as the handbook has it", () => {
    near(radiusOf(segment(21, 6)).value, 12.1875, settled);
  });

  test("chord 13.27, rise 2: radius 12, to the handbook's four digits", () => {
    // The chord is printed to 0.01: dR = c/4h · dc = 1.66 · 0.005.
    near(radiusOf(segment(13.27, 2)).value, 12, 0.009);
  });

  test("u: of the segment's formula, dR = (8R²/c²) dh, with dh = √1.5 u of a height", () => {
    const radius = radiusOf(segment(30, 42 - Math.sqrt(42 ** 2 - 15 ** 2)), 0.01);
    // The rise is the middle less the mean of two edges. The formula drops h/R to first order: 10 % here.
    const byHand = 2 * ((8 * 42 ** 2) / 30 ** 2) * Math.sqrt(1.5) * 0.01;
    near(radius.u, byHand, 0.1 * byHand, "u");
  });

  test("a roll of the board changes nothing but the crown's place", () => {
    const rolled = [-12, -2, 9].map((yMm) => ({ yMm, heightMm: camberMm(yMm - 1.3, 42) + 7 }));
    near(radiusOf(rolled).value, 42, settled);
  });
});

describe("more heights across", () => {
  const seven = [-15, -10, -5, 0, 5, 10, 15];

  test("on an exact arc give its radius", () => {
    near(radiusOf(seven.map((yMm) => ({ yMm, heightMm: camberMm(yMm, 60) }))).value, 60, settled);
  });

  test("that scatter more than they should widen the uncertainty", () => {
    const scattered = seven.map((yMm, i) => ({ yMm, heightMm: camberMm(yMm, 60) + (i % 2 === 0 ? 0.05 : -0.05) }));
    const calm = radiusOf(seven.map((yMm) => ({ yMm, heightMm: camberMm(yMm, 60) })));
    expect(radiusOf(scattered).u).toBeGreaterThan(4 * calm.u);
  });

  test("on a straight line, or hollow across, are no arc", () => {
    expect(arcAcross(segment(20, 0), 0.01).outcome).toBe("no arc");
    expect(arcAcross(segment(20, -0.5), 0.01).outcome).toBe("no arc");
  });
});

describe("gaps under a template of radius 42", () => {
  const under = (gaps: readonly (readonly [number, number])[]) =>
    gaps.map(([yMm, gapMm]) => ({ yMm, heightMm: camberMm(yMm, 42) - gapMm }));

  test("none anywhere: the board is of that radius", () => {
    near(
      radiusOf(
        under([
          [-15, 0],
          [0, 0],
          [15, 0],
        ]),
      ).value,
      42,
      settled,
    );
  });

  test("0.5 at both edges, 15 off the middle: rounder, 36.04", () => {
    const gaps = under([
      [-15, 0.5],
      [0, 0],
      [15, 0.5],
    ]);
    // By hand: the segment's rise is 42 − √(42² − 15²) + 0.5 = 3.26988 over a chord of 30: (900 + 4 · 3.26988²)/(8 · 3.26988).
    near(radiusOf(gaps).value, 36.0396, 0.0001);
  });

  test("0.2 in the middle: flatter, 45.06", () => {
    const gaps = under([
      [-15, 0],
      [0, 0.2],
      [15, 0],
    ]);
    // By hand: rise 2.76988 − 0.2 = 2.56988 over 30: (900 + 4 · 2.56988²)/(8 · 2.56988).
    near(radiusOf(gaps).value, 45.0609, 0.0001);
  });
});
