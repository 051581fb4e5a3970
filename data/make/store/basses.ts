/**
 * The double bass of the store, with a flat under its E string. Invented.
 */
import { bass } from "../plans.ts";
import type { Example } from "./example.ts";
import { aim, asGrid, bassCrosslinesMm, dialGauge, head, pits, rounds, sevenLines } from "./habits.ts";
import { bassShape } from "./shapes.ts";

const bassFinger = { halfLengthMm: 24, halfWidthMm: 9 };

export const bassWithFlat: Example = {
  name: "bass-with-flat",
  number: "B-03",
  title: "Double bass with a flat under the E string",
  story: "A bass with a flat facet on the bass side, which is part of its shape and no wear; worn under G and D.",
  decision: "dress",
  instrument: "bass",
  recipe: {
    seed: 3,
    plan: bass,
    shape: {
      ...bassShape,
      facet: { ridgeNutMm: -9, ridgeEndMm: -22, slopeNut: 0.16, slopeEnd: 0.36 },
    },
    wear: pits(
      bass,
      bassFinger,
      ["G", 2, 0.45],
      ["G", 4, 0.35],
      ["G", 5, 0.28],
      ["D", 2, 0.4],
      ["D", 4, 0.25],
      ["A", 2, 0.2],
    ),
    rounds: rounds(bassCrosslinesMm, ["bass edge", ...sevenLines(bass)]),
    probe: dialGauge,
    wood: {
      bassNutMm: 9.2,
      bassEndMm: 9.6,
      trebleNutMm: 9,
      trebleEndMm: 9.4,
      centre: { fromMm: 600, thicknessMm: 11 },
      atMm: [15, 170, 330, 500, 670, 830],
      noiseMm: 0.02,
    },
    writing: {
      ...asGrid,
      settings: head("bass", bass, dialGauge, {
        build: "solid",
        rut_width: "4",
        ...aim(bassShape),
        edge_inset: "3",
        flat_ridge_nut: "-9",
        flat_ridge_end: "-22",
        edge_limit: "6",
        centre_limit: "7",
      }),
    },
  },
};
