/**
 * A quick look by gaps, by brute force: a straightedge laid along strings, a template laid across, and the leaves that go under.
 *
 * In: recipe with its look, the board's height at any place. Out: the gaps as written, mm: the thickest leaf that goes under, in steps of
 * the leaves; 0 where not even the thinnest does.
 */
import { halfWidthMm, stringYMm } from "./plan.ts";
import type { Recipe } from "./recipe.ts";
import type { HeightAt } from "./shape.ts";
import { straightedgeUndersideMm } from "./straightedge.ts";

export type GapRead =
  | { readonly under: "straightedge"; readonly string: string; readonly xMm: number; readonly gapMm: number }
  | {
      readonly under: "template";
      readonly xMm: number;
      readonly yMm: number;
      readonly radiusMm: number;
      readonly gapMm: number;
    };

export function gapsRead({ plan, look }: Recipe, presentMm: HeightAt): readonly GapRead[] {
  if (look === undefined) return [];
  const leaf = (gapMm: number): number => Math.floor(gapMm / look.leafMm + 1e-9) * look.leafMm;
  const along = look.along.flatMap(({ string, atMm }): GapRead[] => {
    const pathMm = Array.from({ length: Math.floor(plan.lengthMm) + 1 }, (_, k) => k);
    const heightMm = (xMm: number): number => presentMm(xMm, stringYMm(plan, string, xMm));
    const undersideMm = straightedgeUndersideMm(pathMm, pathMm.map(heightMm));
    return atMm.map((xMm) => ({
      under: "straightedge",
      string,
      xMm,
      gapMm: leaf(undersideMm(xMm) - heightMm(xMm)),
    }));
  });
  const across = look.across.flatMap(({ xMm, atMm, radiusMm }): GapRead[] => {
    const halfMm = halfWidthMm(plan, xMm);
    const arcMm = (yMm: number): number => Math.sqrt(radiusMm * radiusMm - yMm * yMm);
    const steps = Array.from({ length: 201 }, (_, k) => halfMm * (k / 100 - 1));
    // Held upright over the centreline, it comes down until it touches.
    const restsMm = Math.max(...steps.map((yMm) => presentMm(xMm, yMm) - arcMm(yMm)));
    return atMm.map((yMm) => ({
      under: "template",
      xMm,
      yMm,
      radiusMm,
      gapMm: leaf(arcMm(yMm) + restsMm - presentMm(xMm, yMm)),
    }));
  });
  return [...along, ...across];
}
