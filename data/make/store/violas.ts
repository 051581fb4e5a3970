/**
 * Violas of the store: planed once too often, and one with a new board. All invented.
 */
import { viola } from "../plans.ts";
import type { Example } from "./example.ts";
import { aim, asGrid, dialGauge, head, pits, rounds, sevenLines, violaCrosslinesMm } from "./habits.ts";
import { violaShape } from "./shapes.ts";

export const violaFinger = { halfLengthMm: 9, halfWidthMm: 4.5 };

export const violaTooThin: Example = {
  name: "viola-too-thin",
  number: "A-12",
  title: "Viola, planed once too often",
  story: "A viola whose board has been dressed many times: worn again, and at its limit already.",
  decision: "replace",
  instrument: "viola",
  recipe: {
    seed: 12,
    plan: viola,
    shape: violaShape,
    wear: pits(
      viola,
      violaFinger,
      ["A", 2, 0.38],
      ["A", 3, 0.3],
      ["D", 2, 0.34],
      ["D", 4, 0.25],
      ["G", 2, 0.2],
      ["A", 5, 0.22],
      ["D", 5, 0.2],
    ),
    rounds: rounds(violaCrosslinesMm, sevenLines(viola)),
    probe: dialGauge,
    wood: {
      bassNutMm: 4.3,
      bassEndMm: 4.5,
      trebleNutMm: 4.25,
      trebleEndMm: 4.35,
      centre: null,
      atMm: [10, 60, 120, 180, 240, 285],
      noiseMm: 0.02,
    },
    writing: {
      ...asGrid,
      separator: ";",
      decimal: ",",
      settings: head("viola", viola, dialGauge, {
        build: "solid",
        rut_width: "3",
        ...aim(violaShape),
        edge_limit: "4.3",
      }),
    },
  },
};

export const violaNewBoard: Example = {
  name: "viola-new-board",
  number: "A-05",
  title: "Viola with a new board",
  story: "A viola that was given a new board: it is still as it came from the blank, too round and hardly hollowed.",
  decision: "shape",
  instrument: "viola",
  recipe: {
    seed: 5,
    plan: viola,
    shape: { ...violaShape, radiusNutMm: 39.5, radiusEndMm: 39.5, hollowLowestMm: 0.5, hollowHighestMm: 0.25 },
    wear: [],
    rounds: rounds(violaCrosslinesMm, sevenLines(viola)),
    probe: dialGauge,
    wood: {
      bassNutMm: 6.3,
      bassEndMm: 6.5,
      trebleNutMm: 6.2,
      trebleEndMm: 6.4,
      centre: null,
      atMm: [10, 60, 120, 180, 240, 285],
      noiseMm: 0.02,
    },
    writing: {
      ...asGrid,
      separator: "\t",
      settings: head("viola", viola, dialGauge, {
        build: "solid",
        new_board: "yes",
        ...aim(violaShape),
        edge_limit: "4.3",
      }),
    },
  },
};

export const violaHandPlaned: Example = {
  name: "viola-hand-planed",
  number: "A-17",
  title: "Viola, planed by hand",
  story:
    "A viola whose board a good hand planed: long, low waves along it, one of them a hump behind a dip, and pits under A and D.",
  decision: "dress",
  instrument: "viola",
  recipe: {
    seed: 17,
    plan: viola,
    shape: {
      ...violaShape,
      hollowHighestMm: 0.5,
      waves: [
        { amplitudeMm: 0.065, lengthMm: 140, phaseRad: 0.4, turnRad: 0.5 },
        { amplitudeMm: 0.015, lengthMm: 260, phaseRad: 2, turnRad: -0.6 },
      ],
    },
    wear: pits(viola, violaFinger, ["A", 2, 0.34], ["D", 2, 0.26], ["A", 4, 0.2], ["D", 4, 0.18]),
    rounds: rounds(
      [5, 22, 41, 59, 77, 94, 110, 125, 142, 160, 178, 195, 215, 235, 262, 288],
      ["bass edge", ...sevenLines(viola), "treble edge"],
    ),
    probe: dialGauge,
    wood: {
      bassNutMm: 5.6,
      bassEndMm: 5.8,
      trebleNutMm: 5.5,
      trebleEndMm: 5.7,
      centre: null,
      atMm: [10, 60, 120, 180, 240, 285],
      noiseMm: 0.02,
    },
    writing: {
      ...asGrid,
      settings: head("viola", viola, dialGauge, {
        build: "solid",
        rut_width: "3",
        ...aim(violaShape),
        edge_inset: "3",
        edge_limit: "4.3",
      }),
    },
  },
};
