/**
 * The least cut against best uniform approximations. Where the target's family has a free constant, the best target below all
 * readings is the uniform fit lowered by its largest residual, and the largest cut is twice that residual.
 *
 * Published: the Chebyshev example of a numerical library's manual (figures and source: chebyshev.json). Closed forms: the best
 * uniform approximation of xⁿ on [−1, 1] by lower degree errs by 2^(1−n) (P. L. Chebyshev; from memory, as in any text).
 */
import { describe, test } from "vitest";
import { allNear, near } from "../support/near.ts";
import { targetBelow } from "../support/targetBelow.ts";
import set from "./chebyshev.json" with { type: "json" };

describe("the manual's example, a + b·eᵗ + c·e⁻ᵗ through five readings", () => {
  const basis = set.t.map((t) => [Math.exp(t), Math.exp(-t), 1]);
  const optimum = targetBelow(basis, set.y);
  const lifted = [optimum.x[0]!, optimum.x[1]!, optimum.x[2]! + optimum.objective / 2];

  test("gives the printed coefficients and largest residual", () => {
    // Four decimals and three digits: half a unit in the last place.
    allNear(lifted, set.printed.coefficients, 5e-5, "coefficient");
    near(optimum.objective / 2, set.printed.largestResidual, 5e-6, "largest residual");
  });

  test("gives the exact optimum", () => {
    // The exponentials are nearly alike, so that coefficients carry some 1e3 of the rounding of readings near 4.
    allNear(lifted, set.exact.coefficients, 1e-11, "coefficient");
    near(optimum.objective / 2, set.exact.largestResidual, 1e-13, "largest residual");
  });
});

describe("closed forms", () => {
  // Rounding only: numbers are near 1.
  const rounding = 1e-12;

  test("below x² at −1, 0, 1 the best straight line is flat, and the largest cut 1", () => {
    const optimum = targetBelow(
      [-1, 0, 1].map((x) => [1, x]),
      [1, 0, 1],
    );
    near(optimum.objective, 1, rounding);
    allNear(optimum.x.subarray(0, 2), [0, 0], rounding);
  });

  test("below x³ at −1, −½, ½, 1 the best parabola is ¾x − ¼, and the largest cut ½", () => {
    const places = [-1, -0.5, 0.5, 1];
    const optimum = targetBelow(
      places.map((x) => [1, x, x * x]),
      places.map((x) => x ** 3),
    );
    near(optimum.objective, 0.5, rounding);
    allNear(optimum.x.subarray(0, 3), [-0.25, 0.75, 0], rounding);
  });

  test("below a hollow board of constant curvature a straight line costs the hollow's whole depth", () => {
    // Radius 12 m over 270 mm: r − √(r² − (c/2)²) = 0.759 mm.
    const [radiusMm, chordMm] = [12_000, 270];
    const depthAt = (x: number) => radiusMm - Math.sqrt(radiusMm ** 2 - (x - chordMm / 2) ** 2);
    const places = Array.from({ length: 11 }, (_, i) => (i * chordMm) / 10);
    const optimum = targetBelow(
      places.map((x) => [1, x]),
      places.map(depthAt),
    );
    near(optimum.objective, depthAt(0), 1e-11);
    allNear(optimum.x.subarray(0, 2), [0, 0], 1e-11);
  });
});
