/**
 * Places across at one crossline -> the radius of the board's arc there.
 *
 *   height = a + √(R² − (y − c)²) − R
 *
 * a is how high gauge or template lay, c where the crown is: on an arc a roll is a shift of the crown. Least squares by Gauss-Newton
 * from the parabola.
 * A gap under a template of radius T resting on the board is the template's arc less the board's, up to such a line: so
 * arc(T) − gap is a height like any other. Standard uncertainty: that of a height, or the scatter about the arc where it is greater.
 *
 * Check: on R 42, 0.5 mm of gap at 15 mm either side of a template of R 42 and none in the middle -> chord 30, rise 2.770 + 0.5, R 36.04
 * (circular segment, r = (c² + 4h²)/8h).
 *
 * in: y and height (mm), standard uncertainty of a height -> out: radius; or why there is none.
 */
import { type Solved, solveLeastSquares } from "../maths/leastSquares.ts";
import { tQuantile } from "../maths/quantiles.ts";
import { camberMm } from "../surface/idealSurface.ts";
import { coverageFactor, type Quantity } from "../units.ts";

export type HeightAcross = { readonly yMm: number; readonly heightMm: number };

export type ArcAcross =
  | { readonly outcome: "arc"; readonly radiusMm: Quantity }
  /** Three places on a straight line, or hollow across: no board that a template could measure. */
  | { readonly outcome: "no arc" };

/** Beyond this a board is flat across, mm. */
const flattestMm = 5_000;
const mostRounds = 50;

/** At least three places at different y. */
export function arcAcross(places: readonly HeightAcross[], heightUMm: number): ArcAcross {
  const parabola = solved(
    places,
    ({ heightMm }) => heightMm,
    (yMm) => [1, yMm, yMm * yMm],
  );
  const [, slope = 0, bend = 0] = parabola?.coefficients ?? [];
  if (bend > -1 / (2 * flattestMm)) return { outcome: "no arc" };

  // The parabola's radius is that at its top: over a deep arc it comes out too small.
  const topMm = -slope / (2 * bend);
  const reachMm = farthestFrom(topMm, places);
  let arc = { crownMm: topMm, radiusMm: Math.max(-1 / (2 * bend), 1.02 * reachMm) };
  for (let round = 0; round < mostRounds; round++) {
    const { crownMm, radiusMm } = arc;
    const farthestMm = farthestFrom(crownMm, places);
    if (!(radiusMm > farthestMm && radiusMm < flattestMm)) return { outcome: "no arc" };
    const step = solved(
      places,
      ({ yMm, heightMm }) => heightMm - camberMm(yMm - crownMm, radiusMm),
      (yMm) => {
        const root = Math.sqrt(radiusMm ** 2 - (yMm - crownMm) ** 2);
        return [1, (yMm - crownMm) / root, radiusMm / root - 1];
      },
    );
    if (step === null) return { outcome: "no arc" };
    const [, byCrown = 0, byRadius = 0] = step.coefficients;
    arc = { crownMm: crownMm + byCrown, radiusMm: Math.max(radiusMm + byRadius, (radiusMm + farthestMm) / 2) };
    if (Math.abs(arc.radiusMm - radiusMm) > 1e-9 * radiusMm) continue;
    const freedom = step.degreesOfFreedom;
    const scatter = freedom > 0 ? step.sumOfSquares / freedom : 0;
    const factor = scatter > heightUMm ** 2 ? tQuantile(0.977, freedom) : coverageFactor;
    const variance = Math.max(scatter, heightUMm ** 2) * step.unscaledCovariance[8]!;
    return { outcome: "arc", radiusMm: { value: arc.radiusMm, u: factor * Math.sqrt(variance) } };
  }
  return { outcome: "no arc" };
}

function farthestFrom(middleMm: number, places: readonly HeightAcross[]): number {
  return places.reduce((farthest, { yMm }) => Math.max(farthest, Math.abs(yMm - middleMm)), 0);
}

function solved(
  places: readonly HeightAcross[],
  observedAt: (place: HeightAcross) => number,
  rowAt: (yMm: number) => readonly number[],
): Solved | null {
  const entries = Float64Array.from(places.flatMap(({ yMm }) => rowAt(yMm)));
  const answer = solveLeastSquares({ rows: places.length, columns: 3, entries }, Float64Array.from(places, observedAt));
  return answer.outcome === "solved" ? answer : null;
}
