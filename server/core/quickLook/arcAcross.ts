/**
 * Places across at one crossline -> the radius of the board's arc there.
 *
 *   height = a + b·y + √(R² − y²) − R
 *
 * a and b are how gauge or template lay: on an arc a roll is a shift of the crown. Least squares by Gauss-Newton from the parabola.
 * A gap under a template of radius T resting on the board is the template's arc less the board's, up to such a line: so
 * arc(T) − gap is a height like any other. Standard uncertainty: that of a height, or the scatter about the arc where it is greater.
 *
 * Check: on R 42, 0.5 mm of gap at 15 mm either side of a template of R 42 and none in the middle -> chord 30, rise 2.770 + 0.5, R 36.04
 * (circular segment, r = (c² + 4h²)/8h).
 *
 * in: y and height (mm), standard uncertainty of a height -> out: radius; or why there is none.
 */
import { solveLeastSquares } from "../maths/leastSquares.ts";
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
  const farthestMm = Math.max(...places.map(({ yMm }) => Math.abs(yMm)));
  const observed = Float64Array.from(places, ({ heightMm }) => heightMm);
  const bent = solved(places, observed, (yMm) => [1, yMm, yMm * yMm]);
  const bend = bent?.coefficients[2] ?? 0;
  if (bend > -1 / (2 * flattestMm)) return { outcome: "no arc" };

  let radiusMm = Math.max(-1 / (2 * bend), 1.02 * farthestMm);
  for (let round = 0; round < mostRounds; round++) {
    const before = radiusMm;
    const step = solved(
      places,
      Float64Array.from(places, ({ yMm, heightMm }) => heightMm - camberMm(yMm, before)),
      (yMm) => [1, yMm, before / Math.sqrt(before ** 2 - yMm ** 2) - 1],
    );
    if (step === null) return { outcome: "no arc" };
    radiusMm = Math.max(before + step.coefficients[2]!, (before + farthestMm) / 2);
    if (!(radiusMm < flattestMm)) return { outcome: "no arc" };
    if (Math.abs(radiusMm - before) > 1e-9 * radiusMm) continue;
    const freedom = step.degreesOfFreedom;
    const scatter = freedom > 0 ? step.sumOfSquares / freedom : 0;
    const isScattered = scatter > heightUMm ** 2;
    const factor = isScattered ? tQuantile(0.977, freedom) : coverageFactor;
    const variance = Math.max(scatter, heightUMm ** 2) * step.unscaledCovariance[8]!;
    return { outcome: "arc", radiusMm: { value: radiusMm, u: factor * Math.sqrt(variance) } };
  }
  return { outcome: "no arc" };
}

function solved(places: readonly HeightAcross[], observed: Float64Array, row: (yMm: number) => readonly number[]) {
  const entries = Float64Array.from(places.flatMap(({ yMm }) => row(yMm)));
  const answer = solveLeastSquares({ rows: places.length, columns: 3, entries }, observed);
  return answer.outcome === "solved" ? answer : null;
}
