/**
 * A second, plainer writing of the published surface family, for tests only.
 *
 *   z = height + pitch·x + √(R² − (y − crown)²) − R − hollow(y)·H(x/L),   H(u) = u(1 − u) / (u0² + (1 − 2·u0)·u)
 *
 * crown (R + hollow) times a roll that is linear in x; R quadratic through nut, middle and end; hollow linear across between the outer strings' paths; beyond
 * a ridge on the bass side a straight line of linear slope. Shares no code with the server. Lengths in mm.
 */
import { inverse, Matrix, solve } from "ml-matrix";
import { stringYMm } from "../../data/make/plan.ts";
import type { Plan } from "../../data/make/recipe.ts";
import { straightedgeGapMm } from "../../data/make/straightedge.ts";

/** Height, pitch, crown at nut and end, radius at nut, middle and end, hollow at lowest and highest, u0, facet slopes. */
export type Parameters = readonly number[];

export const at = {
  height: 0,
  pitch: 1,
  crownNut: 2,
  crownEnd: 3,
  radiusNut: 4,
  radiusMiddle: 5,
  radiusEnd: 6,
  hollowLowest: 7,
  hollowHighest: 8,
  deepest: 9,
  slopeNut: 10,
  slopeEnd: 11,
} as const;

export type Ridge = { readonly nutMm: number; readonly endMm: number } | null;

export type Spot = { readonly xMm: number; readonly yMm: number };

/** Height of the surface with these parameters. */
export function familyHeightMm(plan: Plan, ridge: Ridge, p: Parameters, xMm: number, yMm: number): number {
  const u = xMm / plan.lengthMm;
  const mix = (nut: number, end: number): number => nut + (end - nut) * u;
  const ridgeMm = ridge === null ? -Infinity : mix(ridge.nutMm, ridge.endMm);
  const arcYMm = Math.max(yMm, ridgeMm);
  const radius = p[4]! * (1 - u) * (1 - 2 * u) + p[5]! * 4 * u * (1 - u) + p[6]! * u * (2 * u - 1);
  const lowest = stringYMm(plan, plan.strings[0]!, xMm);
  const highest = stringYMm(plan, plan.strings.at(-1)!, xMm);
  const hollow = p[7]! + ((p[8]! - p[7]!) * (yMm - lowest)) / (highest - lowest);
  const lengthwise = (u * (1 - u)) / (p[9]! ** 2 + (1 - 2 * p[9]!) * u);
  const across = arcYMm - (radius + hollow * lengthwise) * mix(p[2]! / p[4]!, p[3]! / p[6]!);
  const facet = (yMm - arcYMm) * mix(p[10]!, p[11]!);
  return p[0]! + p[1]! * xMm + Math.sqrt(radius ** 2 - across ** 2) - radius + facet - hollow * lengthwise;
}

/**
 * The member of the family that comes nearest to given heights (Gauss–Newton, numeric derivatives, SVD), and how far off it
 * stays (rms, mm). Without a ridge the facet's slopes are left alone.
 */
export function nearestInFamily(
  plan: Plan,
  ridge: Ridge,
  spots: readonly Spot[],
  heightsMm: readonly number[],
  start: Parameters,
): { readonly parameters: Parameters; readonly rmsMm: number } {
  const free = start.map((_, j) => j).filter((j) => ridge !== null || j < at.slopeNut);
  let p = [...start];
  const residuals = (q: Parameters): number[] =>
    spots.map((spot, i) => heightsMm[i]! - familyHeightMm(plan, ridge, q, spot.xMm, spot.yMm));
  for (let turn = 0; turn < 30; turn++) {
    const jacobian = Matrix.zeros(spots.length, free.length);
    free.forEach((j, column) => {
      spots.forEach((spot, i) => {
        jacobian.set(i, column, derivative(plan, ridge, p, j, spot) * scale[j]!);
      });
    });
    const step = solve(jacobian, Matrix.columnVector(residuals(p)), true).to1DArray();
    p = p.map((value, j) => (free.includes(j) ? value + step[free.indexOf(j)]! * scale[j]! : value));
    if (Math.max(...step.map(Math.abs)) < 1e-10) break;
  }
  const rmsMm = Math.sqrt(residuals(p).reduce((sum, off) => sum + off * off, 0) / spots.length);
  return { parameters: p, rmsMm };
}

/** What one unit of change of each parameter means, so that the columns are of one size. */
const scale = [1, 1e-3, 1, 1, 10, 10, 10, 1, 1, 0.1, 0.1, 0.1];

function derivative(plan: Plan, ridge: Ridge, p: Parameters, j: number, { xMm, yMm }: Spot): number {
  const step = scale[j]! * 1e-4;
  const moved = (by: number): number =>
    familyHeightMm(
      plan,
      ridge,
      p.map((value, k) => (k === j ? value + by : value)),
      xMm,
      yMm,
    );
  return (moved(step) - moved(-step)) / (2 * step);
}

/** What a straightedge shows under a string on this surface. */
function familyHollowMm(plan: Plan, ridge: Ridge, p: Parameters, string: string): number {
  const alongMm = Array.from({ length: 41 }, (_, k) => (plan.lengthMm * k) / 40);
  return straightedgeGapMm(
    alongMm,
    alongMm.map((xMm) => familyHeightMm(plan, ridge, p, xMm, stringYMm(plan, string, xMm))),
  );
}

/** The same surface with its two hollow coefficients changed until a straightedge shows what is asked. */
export function withHollows(plan: Plan, ridge: Ridge, p: Parameters, lowestMm: number, highestMm: number): Parameters {
  let shaped = [...p];
  for (let turn = 0; turn < 5; turn++) {
    const lowestOff = lowestMm - familyHollowMm(plan, ridge, shaped, plan.strings[0]!);
    const highestOff = highestMm - familyHollowMm(plan, ridge, shaped, plan.strings.at(-1)!);
    if (Math.abs(lowestOff) + Math.abs(highestOff) < 1e-8) break;
    shaped = shaped.map(
      (value, j) => value + (j === at.hollowLowest ? lowestOff : j === at.hollowHighest ? highestOff : 0),
    );
  }
  return shaped;
}

/**
 * Standard uncertainty of a fitted surface's height anywhere, were it fitted to just these places with this noise
 * (JCGM 100:2008, 5.2.2: gradient · covariance · gradient). No facet.
 */
export function heightUncertaintyMm(
  plan: Plan,
  p: Parameters,
  spots: readonly Spot[],
  noiseMm: number,
): (spot: Spot) => number {
  const free = p.map((_, j) => j).filter((j) => j < at.slopeNut);
  const gradient = (spot: Spot): number[] => free.map((j) => derivative(plan, null, p, j, spot) * scale[j]!);
  const jacobian = new Matrix(spots.map(gradient));
  const covariance = inverse(jacobian.transpose().mmul(jacobian), true);
  return (spot) => {
    const row = new Matrix([gradient(spot)]);
    return noiseMm * Math.sqrt(row.mmul(covariance).mmul(row.transpose()).get(0, 0));
  };
}
