/**
 * The next reading: what it is about, and that taking it narrows what it says by what it says. Boards and every further reading are
 * made by the independent generator, with the same ball, noise and gauge. Lengths in mm.
 */
import { describe, expect, test } from "vitest";
import { halfWidthMm } from "../../../../data/make/plan.ts";
import { seededRandom } from "../../../../data/make/random.ts";
import type { Examination } from "../../../../server/core/examination.ts";
import type { Place } from "../../../../server/core/units.ts";
import { atItsLimit, type Bench, benchWith, closeEdgeLimits, type Settings } from "./benchAgain.ts";

type Which = "wear" | "hollow" | "camber";

/** The expanded uncertainty that is asked about. */
function uOf({ surface, deepest }: Examination, which: Which): number {
  if (which === "wear") return deepest!.u;
  return which === "hollow" ? surface.hollows[0]!.hollowMm.u : surface.camberRadiusMm.middle!.u;
}

/** From and to, as the sentence has them. */
function said(examination: Examination): readonly [number, number] {
  const says = examination.verdict.nextReading?.says ?? "";
  const found = /from ± (\d+\.\d+) to ± (\d+\.\d+) mm/.exec(says);
  if (found === null) throw new Error(`no narrowing in: ${says}`);
  return [Number(found[1]), Number(found[2])];
}

/**
 * How much narrower a quantity gets for readings more at these places, in variance, with the scatter as first estimated: an added
 * reading also changes the estimate of the scatter a little, which is luck and not the place's doing.
 */
function varianceLeft({ bench, settings, before }: Case, which: Which, more: readonly Place[]): number {
  const after = bench.examined(settings, more);
  const luck = after.surface.noiseMm! / before.surface.noiseMm!;
  return (uOf(after, which) / uOf(before, which) / luck) ** 2;
}

type Case = { readonly bench: Bench; readonly settings: Settings; readonly before: Examination };

const boards = [4, 7, 15].map((seed) => benchWith("violin", "7 x 11", seed, true));

describe.each(["hollow", "camber"] as const)("where the %s is near its limit, the next reading", (which) => {
  const cases = boards.map((bench): Case => {
    const settings = atItsLimit(bench.examined({}), which, 0.5);
    return { bench, settings, before: bench.examined(settings) };
  });

  test("is about it, at a place on the board", () => {
    for (const { bench, before } of cases) {
      const next = before.verdict.nextReading!;
      expect(next.what).toBe("height");
      expect(next.says).toContain(which === "hollow" ? "the hollow under G" : "the radius at the middle");
      expect(next.says).toContain(`${next.xMm} mm from the nut`);
      expect(next.xMm).toBeGreaterThan(0);
      expect(next.xMm).toBeLessThan(bench.recipe.plan.lengthMm);
      expect(Math.abs(next.yMm)).toBeLessThan(halfWidthMm(bench.recipe.plan, next.xMm));
    }
  });

  test("narrows it by about as much as said, taken over the boards", () => {
    const shares = cases.map((one) => {
      const [from, to] = said(one.before);
      return { told: (to / from) ** 2, came: varianceLeft(one, which, [one.before.verdict.nextReading!]) };
    });
    // Told to 0.001 of 0.02 (5 %) and to 0.01 of 0.3 (3 %), from readings weighed anew after the next one: 10 % of variance together.
    // On a single board the reading may by chance be low enough to be taken for worn, and then tells nothing of the surface.
    const off = shares.reduce((sum, { told, came }) => sum + came - told, 0) / shares.length;
    expect(Math.abs(off)).toBeLessThan(0.1);
  });

  test("narrows it more than ten places chosen by chance do on average", () => {
    for (const one of cases) {
      const best = varianceLeft(one, which, [one.before.verdict.nextReading!]);
      const { plan, seed } = one.bench.recipe;
      const random = seededRandom(seed);
      const elsewhere = Array.from({ length: 10 }, () => {
        const x = random.between(5, plan.lengthMm - 5);
        const half = halfWidthMm(plan, x) - 3;
        return varianceLeft(one, which, [{ xMm: Math.round(x), yMm: random.between(-half, half) }]);
      });
      expect(best).toBeLessThan(elsewhere.reduce((sum, share) => sum + share, 0) / elsewhere.length);
    }
  });
});

/** Where wear is hardly beyond the noise, another reading may be the deepest once this one is read again. */
const plainlyWorn = [7, 12, 14, 26]
  .map((seed) => benchWith("violin", "7 x 11", seed, true))
  .filter(({ made }) => made.truth.deepestReading.depthMm > 0.15);

describe("where the wear is near its limit, the next reading", () => {
  test("is the deepest place again, and narrows its depth by about as much as said", () => {
    expect(plainlyWorn.length).toBeGreaterThan(1);
    for (const bench of plainlyWorn) {
      const settings = atItsLimit(bench.examined({}), "wear", -0.4);
      const before = bench.examined(settings);
      const next = before.verdict.nextReading!;
      const { xMm, yMm, u } = before.deepest!;
      // The ball touches off its centre by up to its radius times the slope, under 1 mm.
      expect(Math.hypot(next.xMm - xMm, next.yMm - yMm)).toBeLessThan(1);
      const [from, to] = said(before);
      expect(from).toBeGreaterThanOrEqual(u - 1e-9);
      const after = bench.examined(settings, [next]);
      // Told to 0.001 of 0.02; the scatter is estimated anew (about 3 % for one reading in 77).
      expect(Math.abs(after.wornPlaces[0]!.u - to)).toBeLessThan(0.0025);
    }
  });
});

describe("no next reading", () => {
  test("is told where the board is clear of every limit", () => {
    for (const bench of boards) {
      const settings = { ...atItsLimit(bench.examined({}), "wear", 0), dress_at: "0.9" };
      const { verdict } = bench.examined(settings);
      expect(verdict.decision).toBe("leave");
      expect(verdict.nextReading).toBeNull();
    }
  });

  test("is told where a dressing is sure and the wood is plenty, though something else is near its limit", () => {
    for (const bench of boards) {
      const settings = { ...atItsLimit(bench.examined({}), "hollow", 0.5), dress_at: "0.05" };
      const { verdict } = bench.examined(settings);
      expect(verdict.decision).toBe("dress");
      expect(verdict.nextReading).toBeNull();
    }
  });

  test("is told where somebody else decides", () => {
    const settings = { ...atItsLimit(boards[0]!.examined({}), "hollow", 0.5), loose: "yes" };
    expect(boards[0]!.examined(settings).verdict.nextReading).toBeNull();
    expect(boards[0]!.examined({ build: "veneered", dress_at: "0.05" }).verdict.nextReading).toBeNull();
  });
});

describe("where the thickness is close", () => {
  const bench = benchWith("violin", "7 x 11", 7, true, 1);
  const sure = { ...atItsLimit(bench.examined({}), "wear", 0), dress_at: "0.1" };
  const close = closeEdgeLimits(bench, sure);
  const { settings } = close[0]!;

  test("the next reading is the thinnest place with a micrometer, and narrows it as said", () => {
    const before = bench.examined(settings);
    expect(before.verdict.decision).toBe("borderline");
    const next = before.verdict.nextReading!;
    expect(next.what).toBe("thickness");
    const [from, to] = said(before);
    const after = bench.examined({ ...settings, calliper_error: "0.01" });
    // Told to 0.01, rounded up.
    expect(from - before.thickness!.edgeAfterMm.u).toBeGreaterThanOrEqual(-1e-9);
    expect(from - before.thickness!.edgeAfterMm.u).toBeLessThan(0.01);
    expect(to - after.thickness!.edgeAfterMm.u).toBeGreaterThanOrEqual(-1e-9);
    expect(to - after.thickness!.edgeAfterMm.u).toBeLessThan(0.01);
  });

  test("the edge that it names is the one with least to spare", () => {
    const { verdict, thickness } = bench.examined(settings);
    const leastMm = Math.min(...thickness!.places.map(({ afterMm }) => afterMm!));
    // A plan that spares wood leaves several places alike but for rounding: the first of them is named.
    const thinnest = thickness!.places.find(({ afterMm }) => afterMm! < leastMm + 1e-6)!;
    expect(verdict.nextReading!.says).toContain(`the ${thinnest.side} edge ${thinnest.xMm} mm from the nut`);
    expect(verdict.nextReading!.xMm).toBe(thinnest.xMm);
    expect(Math.sign(verdict.nextReading!.yMm)).toBe(thinnest.side === "bass" ? -1 : 1);
  });
});
