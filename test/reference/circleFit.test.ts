/**
 * A camber radius from six points: the geometric circle fit of W. Gander, G. H. Golub and R. Strebel, BIT 34 (1994)
 * (figures and source: circleFit.json), by Gauss–Newton steps through the project's own least squares.
 */
import { expect, test } from "vitest";
import { solveLeastSquares } from "../../server/core/maths/leastSquares.ts";
import { allNear, near } from "../support/near.ts";
import set from "./circleFit.json" with { type: "json" };

type Circle = { readonly x: number; readonly y: number; readonly radius: number };

const start: Circle = { x: set.start.centre[0]!, y: set.start.centre[1]!, radius: set.start.radius };

test("the fitted circle is the published one", () => {
  const circle = fitCircle(start, 200);
  // Printed to four decimals: half a unit there.
  allNear([circle.x, circle.y], set.published.centre, 5e-5, "centre");
  near(circle.radius, set.published.radius, 5e-5, "radius");
});

test("the fitted circle is the exact one to the last digits that matter", () => {
  const circle = fitCircle(start, 200);
  // Gauss–Newton stands still here to about 1e-12: steps of rounding size on numbers near 5.
  allNear([circle.x, circle.y], set.exact.centre, 1e-10, "centre");
  near(circle.radius, set.exact.radius, 1e-10, "radius");
  const sumOfSquares = distances(circle).reduce((sum, distance) => sum + distance ** 2, 0);
  near(sumOfSquares, set.exact.sumOfSquares, 1e-12, "sum of squares");
});

test("five steps are not yet there, so that the check is one of the fit and not of its start", () => {
  expect(Math.abs(fitCircle(start, 5).radius - set.exact.radius)).toBeGreaterThan(1e-6);
});

function fitCircle(from: Circle, steps: number): Circle {
  let circle = from;
  for (let step = 0; step < steps; step++) {
    const entries = set.x.flatMap((x, i) => {
      const toCentre = Math.hypot(x - circle.x, set.y[i]! - circle.y);
      return [(circle.x - x) / toCentre, (circle.y - set.y[i]!) / toCentre, -1];
    });
    const observed = Float64Array.from(distances(circle), (distance) => -distance);
    const change = solveLeastSquares({ rows: set.x.length, columns: 3, entries: Float64Array.from(entries) }, observed);
    if (change.outcome !== "solved") throw new Error(change.why);
    const [x, y, radius] = change.coefficients;
    circle = { x: circle.x + x!, y: circle.y + y!, radius: circle.radius + radius! };
  }
  return circle;
}

/** Signed distance of each point from the circle, positive outside. */
function distances(circle: Circle): number[] {
  return set.x.map((x, i) => Math.hypot(x - circle.x, set.y[i]! - circle.y) - circle.radius);
}
