/**
 * The hollow of one line from heights along it: worked by hand, and on seeded boards. Lengths in mm.
 */
import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../../data/make/random.ts";
import { heightsAlongLine } from "../../../../server/core/quickLook/heightsAlongLine.ts";
import { near } from "../../../support/near.ts";

const line = { lengthMm: 400, deepest: 0.5 };
const scatter = { floorMm: 0.003, hollowUMm: 0 };
const along = [0.02, 0.2, 0.35, 0.5, 0.65, 0.8, 0.98];
const parabola = (hollowMm: number, at = along) =>
  at.map((u) => ({ xMm: 400 * u, heightMm: 7 + 0.3 * u - hollowMm * 4 * u * (1 - u) }));

describe("heights along one line", () => {
  test("a parabola 0.7 deep from end to end: its hollow, also beyond the first and last reading", () => {
    const { hollowMm, deepestAtMm } = heightsAlongLine(parabola(0.7), line, scatter);
    near(hollowMm.value, 0.7, 0.001, "hollow");
    near(deepestAtMm, 200, 2, "deepest at");
  });

  test("a hump of 0.4 is a hollow of −0.4", () => {
    near(heightsAlongLine(parabola(-0.4), line, scatter).hollowMm.value, -0.4, 0.001);
  });

  test("one reading 0.2 low is worn by that, and the hollow stays", () => {
    const heights = parabola(0.7).map((one, i) => (i === 1 ? { ...one, heightMm: one.heightMm - 0.2 } : one));
    const { hollowMm, wearMm } = heightsAlongLine(heights, line, scatter);
    near(wearMm[1]!.value, 0.2, 0.02, "wear");
    expect(wearMm[1]!.value).toBeGreaterThan(wearMm[1]!.u);
    near(hollowMm.value, 0.7, 0.02, "hollow");
  });

  test("three readings tell it, but less surely than seven", () => {
    const three = heightsAlongLine(parabola(0.7, [0.03, 0.5, 0.97]), line, scatter).hollowMm;
    expect(Math.abs(three.value - 0.7)).toBeLessThan(three.u);
    expect(three.u).toBeGreaterThan(1.5 * heightsAlongLine(parabola(0.7), line, scatter).hollowMm.u);
  });

  test("what strings and rail leave uncertain counts in full", () => {
    const { u } = heightsAlongLine(parabola(0.7), line, { ...scatter, hollowUMm: 0.1 }).hollowMm;
    expect(u).toBeGreaterThan(0.2);
  });
});

describe("two hundred seeded lines of seven readings that scatter by 0.006 to 0.016, half of them worn at one or two", () => {
  test("hold the true hollow within the interval in 93 to 100 of 100", () => {
    const held = Array.from({ length: 200 }, (_, seed) => {
      const random = seededRandom(seed + 50);
      const trueMm = random.between(-0.2, 1.5);
      const noiseMm = random.between(0.006, 0.016);
      const worn = seed % 2 === 0 ? [] : [1 + Math.floor(random.uniform() * 3), 1 + Math.floor(random.uniform() * 5)];
      const heights = parabola(trueMm).map(({ xMm, heightMm }, i) => ({
        xMm,
        heightMm: heightMm + noiseMm * random.normal() - (worn.includes(i) ? random.between(0.03, 0.3) : 0),
      }));
      const { hollowMm } = heightsAlongLine(heights, line, scatter);
      return Math.abs(hollowMm.value - trueMm) <= hollowMm.u;
    }).filter(Boolean).length;
    expect(held).toBeGreaterThanOrEqual(186);
  }, 60_000);
});
