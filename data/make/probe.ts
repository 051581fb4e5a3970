/**
 * A ball tip lowered onto the board until it touches, by brute force.
 *
 * The ball's lowest point stops at the greatest of surface(x + a, y + b) + √(r² − a² − b²) − r over all places under the
 * ball. A coarse grid finds the neighbourhood, then the step is halved to a micrometre. The board is taken to go on
 * beyond its edge, since no reading is taken where the ball could roll over it.
 *
 * In: surface, place, tip radius, all mm. Out: height that a perfect gauge reads, and where the ball touches.
 */
import type { HeightAt } from "./shape.ts";

export type Touch = { readonly heightMm: number; readonly xMm: number; readonly yMm: number };

/** @param finestMm width of the narrowest thing on the board: the coarse grid has at least six steps to it. */
export function lowerBall(surface: HeightAt, xMm: number, yMm: number, tipRadiusMm: number, finestMm: number): Touch {
  if (tipRadiusMm === 0) return { heightMm: surface(xMm, yMm), xMm, yMm };
  const heldMm = (a: number, b: number): number => {
    const inside = tipRadiusMm * tipRadiusMm - a * a - b * b;
    return inside < 0 ? -Infinity : surface(xMm + a, yMm + b) + Math.sqrt(inside) - tipRadiusMm;
  };
  const steps = Math.ceil(Math.max(6, (6 * tipRadiusMm) / finestMm));
  let best = { a: 0, b: 0, heightMm: heldMm(0, 0) };
  const tryAt = (a: number, b: number): boolean => {
    const heightMm = heldMm(a, b);
    if (heightMm <= best.heightMm) return false;
    best = { a, b, heightMm };
    return true;
  };
  let stepMm = tipRadiusMm / steps;
  for (let i = -steps; i <= steps; i++) for (let j = -steps; j <= steps; j++) tryAt(i * stepMm, j * stepMm);
  while (stepMm > 0.001) {
    const { a, b } = best;
    const moved = [tryAt(a + stepMm, b), tryAt(a - stepMm, b), tryAt(a, b + stepMm), tryAt(a, b - stepMm)];
    if (!moved.includes(true)) stepMm /= 2;
  }
  return { heightMm: best.heightMm, xMm: xMm + best.a, yMm: yMm + best.b };
}
