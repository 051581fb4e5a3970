/**
 * Boards of the store whose rail could not simply be trusted: laid twice, and bowed over slack strings. Invented.
 */
import { cello, violin } from "../plans.ts";
import type { SetUp } from "../recipe.ts";
import { celloWear } from "./cellos.ts";
import type { Example } from "./example.ts";
import {
  aim,
  asList,
  celloCrosslinesMm,
  dialGauge,
  head,
  pits,
  rounds,
  sevenLines,
  violinCrosslinesMm,
} from "./habits.ts";
import { celloShape, violinShape } from "./shapes.ts";

/** A rail laid along the board reaches four lines; it was laid once over the bass side, once over the treble side. */
const lines = sevenLines(cello);
const overBassSide: SetUp = {
  label: "bass side",
  crosslinesMm: celloCrosslinesMm,
  lines: lines.slice(0, 4),
  heightMm: 0,
  slope: 0,
};
const overTrebleSide: SetUp = {
  label: "treble side",
  crosslinesMm: celloCrosslinesMm,
  lines: lines.slice(4),
  heightMm: 1.3,
  slope: -0.0021,
};
const across = (xMm: number, heightMm: number, slope: number): SetUp => ({
  label: `across at ${xMm}`,
  crosslinesMm: [xMm],
  lines,
  heightMm,
  slope,
});

export const celloAlongStrings: Example = {
  name: "cello-along-strings",
  number: "C-19",
  title: "Cello, read along its strings",
  story:
    "A cello read along its strings with a rail that was laid twice, over the bass side and over the treble side: three passes across tie the two together.",
  decision: "dress",
  instrument: "cello",
  recipe: {
    seed: 19,
    plan: cello,
    shape: { ...celloShape, rollDeg: -0.3, twistDeg: 0.2 },
    wear: celloWear,
    rounds: {
      ...rounds(celloCrosslinesMm, lines),
      setUps: [
        overBassSide,
        overTrebleSide,
        across(40, 0.5, 0.003),
        across(290, -0.9, -0.002),
        across(572, 1.6, 0.004),
      ],
    },
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
      ...asList,
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

const pull = { lowestMm: 0.12, highestMm: 0.08 };

export const violinSlack: Example = {
  name: "violin-slack",
  number: "V-27",
  title: "Violin, read slack over a bowed rail",
  story:
    "A violin read with its strings slack, over a rail that bows, by a gauge that crept: the pull and the rail were measured, and the first places read again.",
  decision: "dress",
  instrument: "violin",
  recipe: {
    seed: 27,
    plan: violin,
    shape: { ...violinShape, rollDeg: 0.4, twistDeg: -0.1 },
    wear: pits(
      violin,
      { halfLengthMm: 8, halfWidthMm: 4 },
      ["A", 2, 0.32],
      ["A", 4, 0.24],
      ["D", 2, 0.26],
      ["E", 2, 0.22],
      ["D", 4, 0.18],
    ),
    rounds: {
      ...rounds(violinCrosslinesMm, sevenLines(violin)),
      checked: ["5 G", "5 D", "5 A", "5 E", "20 G", "20 E"],
    },
    probe: dialGauge,
    bench: {
      driftMm: 0.06,
      rail: { bowMm: 0.08, surveyedAtMm: [0, 30, 60, 90, 120, 150, 180, 210, 240, 270], expandedUMm: 0.006 },
      slack: pull,
    },
    wood: {
      bassNutMm: 5.1,
      bassEndMm: 5.3,
      trebleNutMm: 5,
      trebleEndMm: 5.2,
      centre: null,
      atMm: [10, 60, 115, 170, 220, 260],
      noiseMm: 0.02,
    },
    writing: {
      ...asList,
      settings: [
        ...head("violin", violin, dialGauge, {
          build: "solid",
          rut_width: "3",
          ...aim(violinShape),
          edge_limit: "4",
        }).filter(([key]) => key !== "tension"),
        ["tension", "off"],
        ["pull_lowest", String(pull.lowestMm)],
        ["pull_highest", String(pull.highestMm)],
        ["rail_error", "violin-slack.rail.csv"],
      ],
    },
  },
};
