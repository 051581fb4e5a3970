/**
 * Cellos of the store that a dial gauge read: to dress, veneered, bent. All invented.
 */
import { cello, smallCello } from "../plans.ts";
import type { WearMark } from "../recipe.ts";
import type { Example } from "./example.ts";
import {
  aim,
  asGrid,
  asList,
  celloCrosslinesMm,
  dialGauge,
  head,
  pits,
  rounds,
  sevenLines,
  smallCelloCrosslinesMm,
} from "./habits.ts";
import { celloShape } from "./shapes.ts";

export const celloFinger = { halfLengthMm: 15, halfWidthMm: 6 };

export const celloWear: WearMark[] = [
  ...pits(
    cello,
    celloFinger,
    ["A", 2, 0.4],
    ["A", 4, 0.28],
    ["A", 5, 0.3],
    ["D", 2, 0.32],
    ["D", 3, 0.22],
    ["D", 5, 0.18],
  ),
  ...pits(cello, celloFinger, ["G", 2, 0.16], ["C", 2, 0.1], ["A", 7, 0.12]),
];

export const celloToDress: Example = {
  name: "cello-to-dress",
  number: "C-07",
  title: "Cello, ten years in first position",
  story: "A cello that beginners have pressed hard in first position: pits under A and D, and plenty of wood to plane.",
  decision: "dress",
  instrument: "cello",
  recipe: {
    seed: 7,
    plan: cello,
    shape: celloShape,
    wear: celloWear,
    rounds: rounds(celloCrosslinesMm, sevenLines(cello)),
    probe: dialGauge,
    wood: {
      bassNutMm: 7.3,
      bassEndMm: 7.6,
      trebleNutMm: 7.2,
      trebleEndMm: 7.4,
      centre: { fromMm: 400, thicknessMm: 9.5 },
      atMm: [10, 110, 220, 330, 440, 560],
      noiseMm: 0.02,
    },
    writing: {
      ...asGrid,
      settings: head("cello", cello, dialGauge, {
        build: "solid",
        rut_width: "3",
        ...aim(celloShape),
        edge_limit: "5.4",
        centre_limit: "6",
      }),
    },
  },
};

export const celloVeneered: Example = {
  name: "cello-veneered",
  number: "C-11",
  title: "Cello with a veneered board",
  story: "A student cello whose board is a thin ebony veneer over pale wood: worn, but there is nothing to plane.",
  decision: "restorer",
  instrument: "cello",
  recipe: {
    seed: 11,
    plan: cello,
    shape: { ...celloShape, rollDeg: -0.6, twistDeg: -0.2 },
    wear: pits(cello, celloFinger, ["A", 2, 0.36], ["A", 5, 0.24], ["D", 2, 0.3], ["D", 4, 0.2], ["G", 2, 0.2]),
    rounds: { ...rounds(celloCrosslinesMm, sevenLines(cello)), missing: ["202 C/G", "495 C", "572 A", "8 D/A"] },
    probe: dialGauge,
    wood: {
      bassNutMm: 7,
      bassEndMm: 7.2,
      trebleNutMm: 6.9,
      trebleEndMm: 7.1,
      centre: null,
      atMm: [10, 110, 220, 330, 440, 560],
      noiseMm: 0.02,
    },
    writing: {
      ...asList,
      separator: "\t",
      settings: head("cello", cello, dialGauge, { build: "veneered", ...aim(celloShape), edge_limit: "5.4" }),
    },
  },
};

export const celloBentNeck: Example = {
  name: "cello-bent-neck",
  number: "C-34",
  title: "Small cello with a bent neck",
  story:
    "A three-quarter cello that stood by a radiator: its board is humped lengthwise, so the neck comes before the plane.",
  decision: "cause",
  instrument: "cello 3/4",
  recipe: {
    seed: 34,
    plan: smallCello,
    shape: {
      ...celloShape,
      hollowLowestMm: 1.2,
      hollowHighestMm: 0.9,
      radiusNutMm: 62,
      radiusEndMm: 62,
      bendMm: 1.55,
    },
    wear: pits(smallCello, celloFinger, ["A", 2, 0.12], ["D", 2, 0.1]),
    rounds: { ...rounds(smallCelloCrosslinesMm, sevenLines(smallCello)), missing: ["525 C/G"] },
    probe: dialGauge,
    wood: {
      bassNutMm: 6.8,
      bassEndMm: 7,
      trebleNutMm: 6.8,
      trebleEndMm: 6.9,
      centre: null,
      atMm: [10, 100, 200, 300, 400, 515],
      noiseMm: 0.02,
    },
    writing: {
      ...asGrid,
      unitMm: 0.01,
      decimals: 0,
      settings: head("cello 3/4", smallCello, dialGauge, {
        unit: "0.01mm",
        build: "solid",
        ...aim({ ...celloShape, hollowLowestMm: 1.2, hollowHighestMm: 0.9, radiusNutMm: 62, radiusEndMm: 62 }),
        edge_limit: "5.2",
      }),
    },
  },
};
