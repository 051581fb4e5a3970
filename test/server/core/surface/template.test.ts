/** A template laid across: it touches and never enters. Heights in mm. */
import { describe, expect, test } from "vitest";
import { camberMm } from "../../../../server/core/surface/idealSurface.ts";
import { layTemplate } from "../../../../server/core/surface/template.ts";
import { allNear, near } from "../../../support/near.ts";
import { evenly } from "../plainBoards.ts";

const across = evenly(-16, 16, 41);
const arc = (radiusMm: number) => across.map((y) => 7 + camberMm(y, radiusMm));
const gaps = (heights: readonly number[], radiusMm: number) =>
  layTemplate(across, heights, radiusMm).map((z, i) => z - heights[i]!);

const sections = [
  { board: "of the template's own radius", heights: arc(42) },
  { board: "rounder than the template", heights: arc(38) },
  { board: "flatter than the template", heights: arc(48) },
  { board: "rolled", heights: arc(42).map((z, i) => z + 0.03 * across[i]!) },
  { board: "with a rut", heights: arc(42).map((z, i) => (Math.abs(across[i]! - 4) < 1 ? z - 0.2 : z)) },
  {
    board: "with a ridge off its middle",
    heights: arc(42).map((z, i) => z + 0.3 * Math.exp(-((across[i]! - 6) ** 2))),
  },
  { board: "with a flat facet", heights: arc(42).map((z, i) => (across[i]! < -8 ? camberMm(8, 42) + 7 : z)) },
] as const;

describe("a template of radius 42 laid across a board", () => {
  test.each(sections)("$board touches it and never enters it", ({ heights }) => {
    const gap = gaps(heights, 42);
    // Rounding of heights of some 10 mm.
    expect(Math.min(...gap)).toBeGreaterThan(-1e-12);
    expect(Math.min(...gap)).toBeLessThan(1e-12);
  });

  test("shows no light under it on its own arc, level or rolled", () => {
    allNear(
      gaps(arc(42), 42),
      across.map(() => 0),
      1e-12,
    );
    allNear(
      gaps(sections[3].heights, 42),
      across.map(() => 0),
      1e-12,
    );
  });

  test("shows a rut's depth, and no light beside it", () => {
    const gap = gaps(sections[4].heights, 42);
    across.forEach((y, i) => {
      near(gap[i]!, Math.abs(y - 4) < 1 ? 0.2 : 0, 1e-12, `gap at ${y}`);
    });
  });

  test("rests on both edges of a flatter board, with most light in the middle: the difference of the two segments", () => {
    const gap = gaps(arc(48), 42);
    near(gap[0]!, 0, 1e-12);
    near(gap[40]!, 0, 1e-12);
    near(gap[20]!, camberMm(16, 48) - camberMm(16, 42), 1e-12);
    expect(Math.max(...gap)).toBe(gap[20]);
  });

  test("rests on the crown of a rounder board, with light at both edges", () => {
    const gap = gaps(arc(38), 42);
    near(gap[20]!, 0, 1e-12);
    const light = camberMm(16, 42) - camberMm(16, 38);
    // It is laid on one of the chords next to the crown (0.8 mm long): tilted by 0.4·(1/38 − 1/42) over 16 mm.
    near(gap[0]!, light, 0.02);
    near(gap[40]!, light, 0.02);
  });
});
