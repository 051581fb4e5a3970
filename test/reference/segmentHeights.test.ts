/**
 * The camber of a board against the height of a circle's segment: h = r − √(r² − (c/2)²)
 * (Machinery's Handbook, 31st edition; figures and source: segmentHeights.json).
 */
import { test } from "vitest";
import { camberMm } from "../../server/core/surface/idealSurface.ts";
import { near } from "../support/near.ts";
import set from "./segmentHeights.json" with { type: "json" };

test.each(set.examples)(
  "an arc of radius $radius falls $height at half a chord of $chord",
  ({ radius, height, chord }) => {
    // Chords are printed to ± 0.005, which moves the height by ± 0.0025·(c/2)/(r − h): under 0.002 where the chord is rounded.
    near(-camberMm(chord / 2, radius), height, 0.002, "height");
  },
);

test.each(set.examples)(
  "the chord of radius $radius and height $height leads back to the height",
  ({ radius, height }) => {
    const halfChord = Math.sqrt(height * (2 * radius - height));
    // Nothing is printed here: only rounding, a few units in the last place of r.
    near(camberMm(halfChord, radius), -height, 1e-12);
    near(camberMm(-halfChord, radius), -height, 1e-12);
  },
);
